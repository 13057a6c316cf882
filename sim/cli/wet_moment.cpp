#include "cli/wet_moment.h"

#include <algorithm>

#include "sheet/look.h"
#include "sheet/stage.h"

namespace tidemark::cli {
namespace {

double film_share(const sheet::SheetState& s) {
    const sheet::StageRule rule = sheet::stage_rule(s);
    long cells = 0;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) cells += s.film_m(i, j) >= rule.moist_film_m ? 1 : 0;
    return static_cast<double>(cells) / (static_cast<double>(s.geometry.nx) * s.geometry.ny);
}

report::WetSheet as_now(const rehearsal::Rehearsal& run, double share) {
    return {sheet::look(run.sheet(), sheet::LookAs::as_now).picture, run.time_s(), share};
}

std::size_t ended_washes(const rehearsal::Rehearsal& run) {
    const auto& acts = run.record().acts;
    return static_cast<std::size_t>(std::count_if(acts.begin(), acts.end(), [&](const sheet::ActRecord& a) {
        return a.ended && std::holds_alternative<plan::Wash>(run.plan().steps[a.step].act);
    }));
}

} // namespace

void WetMoment::look(const rehearsal::Rehearsal& run) {
    const std::size_t washes = ended_washes(run);
    if (washes == washes_) return;
    washes_ = washes;
    const double share = film_share(run.sheet());
    if (best_ && share < std::min(much, best_->wet_share)) return;
    if (share > 0) best_ = as_now(run, share);
}

std::optional<report::WetSheet> WetMoment::shown(const rehearsal::Rehearsal& run) const {
    if (!run.record().dried) return as_now(run, film_share(run.sheet()));
    return best_;
}

} // namespace tidemark::cli
