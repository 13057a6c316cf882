#include "report/act_text.h"

#include "grid/csv.h"
#include "grid/units.h"
#include "plan/coverage.h"

#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

double degrees(double rad) { return rad / grid::rad_from_deg(1); }

/// Where downhill is, in words; the plan counts clockwise from the right.
std::string downhill_text(double direction_rad) {
    static constexpr const char* ways[] = {"to the right", "to the lower right", "down the sheet", "to the lower left",
                                           "to the left",  "to the upper left",  "up the sheet",   "to the upper right"};
    return ways[((std::lround(degrees(direction_rad) / 45) % 8) + 8) % 8];
}

struct ActText {
    const plan::Plan& plan;
    std::string at(int area) const { return place_text(plan, area); }

    std::string operator()(const plan::Wet& a) const {
        const char* side = a.side == plan::Side::both ? " on both faces" : a.side == plan::Side::back ? " from the back" : "";
        return fmt::format("wet {}{}, {:.0f} g/m²", at(a.area), side, grid::g_m2_from_kg_m2(a.water_kg_m2));
    }
    std::string operator()(const plan::Wash& a) const {
        std::string text = fmt::format("wash {} {}, {:.0f} µm deep", at(a.area), way(a), grid::um_from_m(a.film_m));
        if (a.brush) text += ", " + a.brush->id;
        if (a.bead == plan::Bead::picked_up) text += ", pick up the bead";
        return text;
    }
    std::string way(const plan::Wash& a) const {
        switch (a.travel) {
        case plan::Travel::rows: return "in rows";
        case plan::Travel::downhill: return "downhill";
        case plan::Travel::from_point:
            return fmt::format("from {:.0f}, {:.0f} mm on", grid::mm_from_m(a.from_x_m), grid::mm_from_m(a.from_y_m));
        case plan::Travel::order: return "in its own order";
        case plan::Travel::strokes: return "in its strokes";
        }
        return {};
    }
    std::string operator()(const plan::Charge& a) const {
        const char* what = a.stroke_m > 0 ? "short strokes" : "drops";
        return fmt::format("{} {} of {:g} µL into {}", a.count, what, std::round(1e10 * a.drop_m3) / 10, at(a.area));
    }
    std::string operator()(const plan::Tilt& a) const {
        return a.angle_rad == 0 ? std::string("lay the board flat")
                                : fmt::format("tilt the board to {:g}°, downhill {}", std::round(10 * degrees(a.angle_rad)) / 10,
                                              downhill_text(a.direction_rad));
    }
    std::string operator()(const plan::Dry& a) const {
        const std::string how = a.warm_air ? "warm air" : "wait";
        if (!a.until) return fmt::format("{} for {}", how, grid::clock_text(a.longest_s));
        const std::string whose = a.area == plan::whole_sheet ? "" : at(a.area) + " is ";
        return fmt::format("{} until {}{}, {} at most", how, whose, plan::word(*a.until), grid::clock_text(a.longest_s));
    }
    std::string operator()(const plan::Lift& a) const {
        return a.tool == plan::LiftTool::scrub ? fmt::format("lift {} by scrubbing", at(a.area))
               : a.tool == plan::LiftTool::thirsty_brush
                   ? fmt::format("lift {} with a thirsty brush", at(a.area))
                   : fmt::format("lift {} with a {}", at(a.area), plan::word(a.tool));
    }
    std::string operator()(const plan::Spatter& a) const {
        return fmt::format("spatter {}: {} marks of {:g} to {:g} mm", at(a.area), a.count,
                           std::round(1e4 * a.smallest_m) / 10, std::round(1e4 * a.largest_m) / 10);
    }
    std::string operator()(const plan::Spray& a) const {
        return fmt::format("spray {} with a fine mist, {:.0f} g/m²", at(a.area), grid::g_m2_from_kg_m2(a.water_kg_m2));
    }
    std::string operator()(const plan::Drybrush& a) const {
        return fmt::format("drag a nearly dry brush over {}", at(a.area));
    }
    std::string operator()(const plan::Soften& a) const {
        return fmt::format("soften the edge of {}{}, {:g} mm wide, with a clean damp brush", at(a.area),
                           a.along ? " along " + at(*a.along) : std::string{}, std::round(1e4 * a.width_m) / 10);
    }
    std::string operator()(const plan::Reserve& a) const { return fmt::format("lay resist on {}", at(a.area)); }
    std::string operator()(const plan::Uncover& a) const { return fmt::format("take the resist off {}", at(a.area)); }
    std::string operator()(const plan::Body& a) const {
        return fmt::format("body colour on {}, {:.0f} g/m²", at(a.area), grid::g_m2_from_kg_m2(a.paint_kg_m2));
    }
};

} // namespace

std::string place_text(const plan::Plan& plan, int area) {
    return area == plan::whole_sheet ? "the whole sheet" : plan::area_name(plan, area);
}

std::string act_text(const plan::Plan& plan, const plan::Step& step) { return std::visit(ActText{plan}, step.act); }

std::string mix_text(const plan::Plan& plan, const plan::Step& step) {
    return std::visit(
        [&](const auto& act) -> std::string {
            using A = std::decay_t<decltype(act)>;
            if constexpr (requires { act.mix; })
                return act.mix < 0 ? "clean water" : plan.mixes[act.mix].name;
            else
                return std::is_same_v<A, plan::Wet> || std::is_same_v<A, plan::Soften> ? "clean water" : "";
        },
        step.act);
}

} // namespace tidemark::report
