#include "grid/units.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

int read_mix_name(Reading& reading, Keys& keys) {
    const std::string name = keys.text("mix", {}, "a mix's name in quotes");
    if (name.empty())
        return 0;
    std::vector<std::string> names;
    for (const Mix& mix : reading.plan.mixes) {
        if (mix.name == name)
            return static_cast<int>(names.size());
        names.push_back(mix.name);
    }
    const Hint h = hint(name, names, "");
    keys.refuse("mix", "unknown mix " + in_quotes(name) + h.nearest, h.allowed);
    return 0;
}

Wet read_wet(Keys& keys, int area) {
    Wet wet;
    wet.side = keys.word("side", sides, std::optional(Side::front));
    wet.water_kg_m2 = grid::kg_m2_from_g_m2(keys.number("water_g_m2", {10, 600, "g/m²"}));
    wet.area = area;
    wet.pace_m2_s = grid::m2_s_from_cm2_s(keys.number("pace_cm2_s", {0.5, 200, "cm²/s"}, 40));
    return wet;
}

/// travel = "rows" or "downhill", or from = [x, y]: from that point through the shape.
void read_path(const Plan& plan, Keys& keys, Wash& wash) {
    const Words<Travel> travels{{"rows", Travel::rows}, {"downhill", Travel::downhill}};
    wash.travel = keys.word("travel", travels, std::optional(Travel::rows));
    const double width_mm = grid::mm_from_m(plan.width_m), height_mm = grid::mm_from_m(plan.height_m);
    const bool sized = plan.width_m > 0; // else the sheet's own problem is enough
    const Range across{0, sized ? width_mm : 1e9}, down{0, sized ? height_mm : 1e9};
    const auto from = keys.pair(
        "from", across, down, fmt::format("[x, y] on the sheet in mm, up to [{:.6g}, {:.6g}]", width_mm, height_mm));
    if (!from)
        return;
    if (keys.has("travel"))
        keys.refuse("travel", "travel and from in one step", "one of them");
    wash.travel = Travel::from_point;
    wash.from_x_m = grid::m_from_mm(from->first);
    wash.from_y_m = grid::m_from_mm(from->second);
}

Wash read_wash(Reading& reading, Keys& keys, int area) {
    Wash wash;
    wash.area = area;
    wash.mix = read_mix_name(reading, keys);
    wash.film_m = grid::m_from_um(keys.number("film_um", {10, 600, "µm"}));
    wash.pace_m2_s = grid::m2_s_from_cm2_s(keys.number("pace_cm2_s", {0.5, 100, "cm²/s"}, 6));
    read_path(reading.plan, keys, wash);
    return wash;
}

Charge read_charge(Reading& reading, Keys& keys, int area) {
    Charge charge;
    charge.area = area;
    charge.mix = read_mix_name(reading, keys);
    charge.count = static_cast<int>(keys.whole("drops", 1, 5000));
    charge.drop_m3 = keys.number("drop_uL", {1, 500, "µL"}, 20) * 1e-9;
    charge.drop_radius_m = grid::m_from_mm(keys.number("drop_mm", {0.5, 30, "mm"}, 6)) / 2;
    charge.seconds_per_drop = keys.number("each_s", {0, 60, "s"}, 0.5);
    return charge;
}

Tilt read_tilt(Keys& keys) {
    Tilt tilt;
    tilt.angle_rad = grid::rad_from_deg(keys.number("angle_deg", {0, max_tilt_deg, "degrees"}));
    tilt.direction_rad = grid::rad_from_deg(keys.number("direction_deg", degrees(), 90));
    return tilt;
}

Dry read_dry(Keys& keys, int area) {
    Dry dry;
    dry.area = area;
    if (keys.has("until"))
        dry.until = keys.word("until", stages, std::optional(Stage::dry));
    dry.longest_s = keys.clock("longest", dry.longest_s);
    if (!keys.has("until") && !keys.has("longest"))
        keys.refuse("until", "until and longest are missing",
                    "at least one of them: a stage, or a time such as \"10:00\"");
    dry.warm_air = keys.truth("warm_air", false);
    for (const char* key : {"air_C", "air_m_s"})
        if (!dry.warm_air && keys.has(key))
            keys.refuse(key, fmt::format("{} without warm air", key), "warm_air = true");
    dry.air_temperature_K = grid::K_from_C(keys.number("air_C", {20, 80, "°C"}, 50));
    dry.air_m_s = keys.number("air_m_s", {0.1, 10, "m/s"}, 2);
    return dry;
}

} // namespace

Act read_act(Reading& reading, StepKeys& step) {
    if (step.verb == "wet")
        return read_wet(step.keys, step.area);
    if (step.verb == "wash")
        return read_wash(reading, step.keys, step.area);
    if (step.verb == "charge")
        return read_charge(reading, step.keys, step.area);
    if (step.verb == "tilt")
        return read_tilt(step.keys);
    return read_dry(step.keys, step.area);
}

} // namespace tidemark::plan
