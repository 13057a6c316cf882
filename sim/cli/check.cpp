#include <fmt/format.h>

#include <cstdio>

#include "cli/commands.h"
#include "cli/strength_lines.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "hand/trial.h"
#include "plan/read_plan.h"
#include "plan/schedule.h"

namespace tidemark::cli {
namespace {

/// "  sun: ellipse, 12.6 cm², 4 % of the sheet"
std::string area_line(const plan::Plan& plan, int area) {
    const double m2 = plan::area_m2(plan, area), share = m2 / plan::area_m2(plan, plan::whole_sheet);
    return fmt::format("  {}: {}, {:.1f} cm², {:.{}f} % of the sheet\n", plan.areas[area].name,
                       plan::form_word(plan.areas[area]), m2 * 1e4, share * 100, share < 0.0995 ? 1 : 0);
}

using grid::clock_text;

/// "0:25 of hand with 2 refills"
std::string hand_text(const plan::Busy& busy) {
    std::string text = clock_text(busy.seconds) + " of hand";
    if (busy.refills > 0) text += fmt::format(" with {} refill{}", busy.refills, busy.refills == 1 ? "" : "s");
    return text;
}

/// "    0:05    0:30  wall (wash, 0:25 of hand with 2 refills); ..."
std::string step_line(const plan::Step& step, const plan::NominalTime& time) {
    const auto* dry = std::get_if<plan::Dry>(&step.act);
    const char* earliest = time.start_is_earliest ? "+" : " ";
    return fmt::format("{:>8}{}{:>8}{} {} ({}{})\n", clock_text(time.start_s), earliest,
                       dry && dry->until ? "?" : clock_text(time.end_s), dry && dry->until ? " " : earliest, step.name,
                       plan::act_word(step.act), dry ? "" : ", " + hand_text(time.busy));
}

std::string hand_in_all(const plan::Timetable& table) {
    plan::Busy all;
    for (const plan::NominalTime& time : table.times)
        all.seconds += time.busy.seconds, all.refills += time.busy.refills, all.refilling_s += time.busy.refilling_s;
    std::string text = "The hand is busy for " + clock_text(all.seconds) + " in all";
    if (all.refills > 0)
        text += fmt::format(", {} of it filling the brush {} time{}", clock_text(all.refilling_s), all.refills,
                            all.refills == 1 ? "" : "s");
    return text + ".\n";
}

/// "  "drops" is due at 5:00, but the hand has "sky" until 6:12: it begins at 6:12 at the earliest"
std::string clash_line(const plan::Plan& plan, const plan::Timetable& table, const plan::Clash& clash) {
    const plan::NominalTime& time = table.times[clash.step];
    std::string has;
    for (const int step : clash.hand_has)
        has += fmt::format("{}\"{}\" until {}", has.empty() ? "" : ", then ", plan.steps[step].name,
                           clock_text(table.times[step].end_s));
    if (clash.more > 0)
        has += fmt::format(", then {} more", clash.more);
    return fmt::format("  \"{}\" is due at {}, but the hand has {}: it begins at {} at the earliest\n",
                       plan.steps[clash.step].name, clock_text(time.due_s), has, clock_text(time.start_s));
}

std::string clash_lines(const plan::Plan& plan, const plan::Timetable& table) {
    const plan::Clashes found = plan::clashes(table);
    const std::size_t n = found.certain.size();
    std::string text = n == 0 ? "No act is due while the hand is busy with another.\n"
                              : fmt::format("{} act{} due while the hand is busy with another:\n", n, n == 1 ? " is" : "s are");
    for (const plan::Clash& clash : found.certain) text += clash_line(plan, table, clash);
    if (found.first_uncertain < 0) return text;
    const plan::NominalTime& time = table.times[found.first_uncertain];
    return text + fmt::format("From {} on that is not certain: \"{}\" waits for the sheet, and then takes the hand for {}.\n",
                              clock_text(time.start_s), plan.steps[found.first_uncertain].name,
                              clock_text(time.busy.seconds));
}

} // namespace

bool check_plan(const CheckOptions& o) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    const plan::Plan plan = plan::read_plan(o.plan, presets, files_from(o.outside));
    std::string text = fmt::format("{}: a sheet of {:.0f} × {:.0f} mm, {}, {}, {} step{}\n", o.plan,
                                   plan.width_m * 1e3, plan.height_m * 1e3, plan.paper.id, plan.room.id,
                                   plan.steps.size(), plan.steps.size() == 1 ? "" : "s");
    for (std::size_t a = 0; a < plan.areas.size(); ++a) text += area_line(plan, static_cast<int>(a));
    hand::Trial trial(plan);
    const plan::Timetable table = plan::timetable(plan, [&](int step) { return trial(step); });
    text += "   begins    ends\n";
    for (const int k : table.order) text += step_line(plan.steps[k], table.times[k]);
    text += "A + marks the earliest minute: a wait for a stage comes before it. A ? is the end of such a wait.\n";
    text += hand_in_all(table) + clash_lines(plan, table) + strength_lines(plan, judge::judge_strength(plan, table.order));
    std::fputs(text.c_str(), stdout);
    return true;
}

} // namespace tidemark::cli
