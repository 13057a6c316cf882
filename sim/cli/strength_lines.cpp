#include "cli/strength_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tidemark::cli {
namespace {

using judge::Asks;
using judge::Strength;

/// Columns on a terminal: all that goes on from a byte before it is none.
std::size_t columns(const std::string& text) {
    return std::count_if(text.begin(), text.end(), [](unsigned char c) { return (c & 0xc0) != 0x80; });
}

std::string padded(const std::string& text, std::size_t width) {
    return text + std::string(width - std::min(width, columns(text)), ' ');
}

int mix_of(const std::vector<Strength>& all, int step) {
    return std::find_if(all.begin(), all.end(), [&](const Strength& s) { return s.step == step; })->mix;
}

/// "midtone over sunlit": the step, and the mix that it lies over
std::string where(const plan::Plan& plan, const std::vector<Strength>& all, const Strength& s) {
    const std::string& step = plan.steps[s.step].name;
    if (s.over.empty())
        return step + (s.on_paper ? " on white paper" : " over several");
    return step + " over " + plan.mixes[mix_of(all, s.over.front())].name;
}

/// Mostly a white, so that more of it makes nothing darker.
bool is_white(const plan::Plan& plan, const plan::Mix& mix) {
    double white = 0, all = 0;
    for (const plan::PigmentShare& p : mix.pigments) {
        all += p.mass_fraction;
        white += plan.pigments[p.pigment].id.starts_with("PW") ? p.mass_fraction : 0;
    }
    return white > 0.5 * all;
}

std::string answer(const Strength& s, bool drops, bool white) {
    switch (s.asks) {
    case Asks::close: return "close";
    case Asks::other_load:
        return fmt::format("{:.1f} times the {}{}", s.factor, drops ? "pigment or drops" : "pigment",
                           s.second_pass && !drops ? ", or a second pass" : "");
    case Asks::never_darker:
        if (white)
            return fmt::format("{:.0f} lighter, as white is", s.dry_L - s.reference_L);
        return fmt::format("never that dark: its darkest is {:.0f}", s.darkest_L);
    case Asks::never_lighter:
        if (s.below_L < s.reference_L - judge::close_L)
            return fmt::format("too dark below already: {:.0f}", s.below_L);
        return fmt::format("never that light: its lightest is {:.0f}", s.lightest_L);
    default: return {};
    }
}

/// "  77: 1.9 times the pigment, or a second pass", or why nothing is compared
std::string beside(const plan::Plan& plan, const Strength& s) {
    const plan::Act& act = plan.steps[s.step].act;
    if (s.asks != Asks::nothing)
        return fmt::format("  {:3.0f}: {}", s.reference_L, answer(s, std::holds_alternative<plan::Charge>(act), is_white(plan, plan.mixes[s.mix])));
    return s.open_share < judge::least_open_share ? "    -: later acts cover it"
           : std::holds_alternative<plan::Drybrush>(act) ? "    -: broken by the paper" : "";
}

} // namespace

std::string strength_lines(const plan::Plan& plan, const std::vector<Strength>& all) {
    if (all.empty())
        return {};
    const bool compared = plan.reference.has_value();
    std::size_t mix = 3, place = 4;
    for (const Strength& s : all) {
        mix = std::max(mix, columns(plan.mixes[s.mix].name));
        place = std::max(place, columns(where(plan, all, s)));
    }
    std::string text = fmt::format("How dark each mix dries where the plan lays it, in L* (0 black, 100 white):\n  {}  {}  dry  wet{}\n",
                                   padded("mix", mix), padded("step", place), compared ? "  reference" : "");
    for (const Strength& s : all) {
        text += fmt::format("  {}  {}  {:3.0f}  {:3.0f}", padded(plan.mixes[s.mix].name, mix),
                            padded(where(plan, all, s), place), s.dry_L, s.wet_L);
        text += (compared ? beside(plan, s) : "") + "\n";
    }
    return text + "Wet is under its film. Paint counts as staying where it is laid, drops as spread over their area" +
           (compared ? ";\nthe reference as its mean where no later act comes.\n" : ".\n");
}

} // namespace tidemark::cli
