#include <fmt/format.h>

#include <cstdio>

#include "cli/commands.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "plan/read_plan.h"
#include "plan/schedule.h"
#include "sheet/look.h"

namespace tidemark::cli {
namespace {

/// L* at which a wash dries on bare paper, if it stays where it was laid.
double dries_to(const plan::Plan& plan, const plan::Mix& mix, double film_m) {
    std::vector<std::pair<const materials::Pigment*, double>> load;
    for (const auto& p : mix.pigments) load.push_back({&plan.pigments[p.pigment], p.mass_fraction * film_m * 1000.0});
    return sheet::dried_lstar(plan.paper, load);
}

std::string strength(const plan::Plan& plan, const plan::Step& step) {
    const auto* wash = std::get_if<plan::Wash>(&step.act);
    if (!wash || plan.mixes[wash->mix].pigments.empty()) return {};
    return fmt::format("; {:.0f} µm of {} dries at L* {:.0f} on bare paper", wash->film_m * 1e6,
                       plan.mixes[wash->mix].name, dries_to(plan, plan.mixes[wash->mix], wash->film_m));
}

/// "  sun: ellipse, 12.6 cm², 4 % of the sheet"
std::string area_line(const plan::Plan& plan, int area) {
    const double m2 = plan::area_m2(plan, area), share = m2 / plan::area_m2(plan, plan::whole_sheet);
    return fmt::format("  {}: {}, {:.1f} cm², {:.{}f} % of the sheet\n", plan.areas[area].name,
                       plan::form_word(plan.areas[area]), m2 * 1e4, share * 100, share < 0.0995 ? 1 : 0);
}

} // namespace

bool check_plan(const CheckOptions& o) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    const plan::Plan plan = plan::read_plan(o.plan, presets);
    std::string text = fmt::format("{}: a sheet of {:.0f} × {:.0f} mm, {}, {}, {} step{}\n", o.plan,
                                   plan.width_m * 1e3, plan.height_m * 1e3, plan.paper.id, plan.room.id,
                                   plan.steps.size(), plan.steps.size() == 1 ? "" : "s");
    for (std::size_t a = 0; a < plan.areas.size(); ++a) text += area_line(plan, static_cast<int>(a));
    const auto times = plan::nominal_times(plan);
    for (int k : plan::start_order(plan)) {
        const plan::Step& step = plan.steps[k];
        const bool waits = std::holds_alternative<plan::Dry>(step.act);
        text += fmt::format("{:>8}{} {} ({}{}){}\n", grid::clock_text(times[k].start_s), times[k].start_is_earliest ? "+" : " ",
                            step.name, plan::act_word(step.act),
                            waits ? "" : fmt::format(", {} of hand", grid::clock_text(times[k].end_s - times[k].start_s)),
                            strength(plan, step));
    }
    text += "A + marks the earliest minute: a wait for a stage comes before it.\n";
    std::fputs(text.c_str(), stdout);
    return true;
}

} // namespace tidemark::cli
