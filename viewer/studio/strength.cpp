#include "viewer/studio/strength.h"

#include "hand/trial.h"
#include "judge/strength.h"
#include "plan/timetable.h"

#include <fmt/format.h>

#include <cmath>

namespace tidemark::viewer {

namespace {

constexpr double trial_cell_m = 2e-3; ///< fine enough for the order of the acts

std::string words_of(const judge::Strength& s) {
    const double off = s.dry_L - s.reference_L;
    const std::string by = fmt::format("dries about {:.0f} L* {} than the reference", std::abs(off), off > 0 ? "lighter" : "darker");
    switch (s.asks) {
    case judge::Asks::nothing: return {};
    case judge::Asks::close: return "dries as light as the reference";
    case judge::Asks::other_load: return fmt::format("{}: {:.1f} times the pigment would meet it", by, s.factor);
    case judge::Asks::never_darker: return by + ": no strength of this mix is as dark";
    case judge::Asks::never_lighter: return by + ": no strength of this mix is as light over what lies below";
    }
    return {};
}

} // namespace

std::vector<DriesTo> dries_to(const plan::Plan& plan) {
    hand::Trial trial(plan, trial_cell_m);
    const plan::Timetable table = plan::timetable(plan, [&](int step) { return trial(step); });
    std::vector<DriesTo> all;
    for (const judge::Strength& s : judge::judge_strength(plan, table.order)) all.push_back({s.step, s.dry_L, s.wet_L, s.reference_L, words_of(s)});
    return all;
}

} // namespace tidemark::viewer
