// Acts that take away, fall from above, or touch the paper lightly.
#include "grid/units.h"
#include "plan/ranges_detail.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

double read_pace(Keys& keys, double otherwise_cm2_s) {
    return grid::m2_s_from_cm2_s(keys.number("pace_cm2_s", hand_pace, otherwise_cm2_s));
}

Act read_lift(StepKeys& step) {
    Lift lift;
    lift.area = step.area;
    lift.tool = step.keys.word("tool", lift_tools);
    lift.pace_m2_s = read_pace(step.keys, 5);
    return lift;
}

Act read_spatter(Reading& reading, StepKeys& step) {
    Keys& keys = step.keys;
    Spatter spatter;
    spatter.area = step.area;
    spatter.mix = read_mix_or_water(reading, keys);
    spatter.count = static_cast<int>(keys.whole("drops", 1, 5000));
    if (keys.has("drop_mm")) {
        const Range size{0.2, 20, "mm"};
        if (const auto sizes = keys.pair("drop_mm", size, size, "[smallest, largest], each " + size.text())) {
            spatter.smallest_m = grid::m_from_mm(sizes->first), spatter.largest_m = grid::m_from_mm(sizes->second);
            if (sizes->first > sizes->second)
                keys.refuse("drop_mm", fmt::format("drop_mm is [{:.6g}, {:.6g}]", sizes->first, sizes->second),
                            "the smallest first");
        }
    }
    spatter.seconds = keys.number("seconds", {0, 600, "s"}, spatter.seconds);
    return spatter;
}

Act read_spray(Reading& reading, StepKeys& step) {
    Keys& keys = step.keys;
    Spray spray;
    spray.area = step.area;
    spray.mix = read_mix_or_water(reading, keys);
    spray.water_kg_m2 = grid::kg_m2_from_g_m2(keys.number("water_g_m2", spray_water));
    spray.droplet_m = grid::m_from_mm(keys.number("droplet_mm", {0.05, 2, "mm"}, 0.3));
    spray.seconds = keys.number("seconds", {0, 600, "s"}, spray.seconds);
    return spray;
}

Act read_drybrush(Reading& reading, StepKeys& step) {
    Keys& keys = step.keys;
    Drybrush brush;
    brush.area = step.area;
    brush.mix = read_mix_name(reading, keys);
    brush.film_m = grid::m_from_um(keys.number("film_um", drybrush_film, 40));
    if (keys.has("share"))
        brush.share = keys.number("share", share_of_area);
    brush.pace_m2_s = read_pace(keys, 10);
    return brush;
}

Act read_soften(Reading& reading, StepKeys& step) {
    Keys& keys = step.keys;
    Soften soften;
    soften.area = step.area;
    if (step.area == whole_sheet)
        keys.refuse("area", "the whole sheet has no edge to soften", "area or mask: whose edge");
    if (keys.has("along")) {
        const int along = area_named(reading, keys, "along", keys.text("along", {}, "an area's name in quotes"));
        if (along >= 0)
            soften.along = along;
    }
    soften.width_m = grid::m_from_mm(keys.number("width_mm", {1, 60, "mm"}, 6));
    soften.water_kg_m2 = grid::kg_m2_from_g_m2(keys.number("water_g_m2", soften_water, 40));
    soften.speed_m_s = 0.01 * keys.number("speed_cm_s", soften_speed, 3);
    return soften;
}

Act read_body(Reading& reading, StepKeys& step) {
    Keys& keys = step.keys;
    Body body;
    body.area = step.area;
    body.mix = read_mix_name(reading, keys);
    body.paint_kg_m2 = grid::kg_m2_from_g_m2(keys.number("paint_g_m2", body_paint, 60));
    body.pace_m2_s = read_pace(keys, 2);
    return body;
}

} // namespace tidemark::plan
