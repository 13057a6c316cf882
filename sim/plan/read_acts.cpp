#include "grid/units.h"
#include "plan/ranges_detail.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

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

int read_mix_or_water(Reading& reading, Keys& keys) {
    const Value* value = keys.find("mix");
    const bool water = value == nullptr || (value->kind == Value::Kind::text && value->text == water_name);
    return water ? -1 : read_mix_name(reading, keys);
}

namespace {

Wet read_wet(Keys& keys, int area) {
    Wet wet;
    wet.side = keys.word("side", sides, std::optional(Side::front));
    wet.water_kg_m2 = grid::kg_m2_from_g_m2(keys.number("water_g_m2", wet_water));
    wet.area = area;
    wet.pace_m2_s = grid::m2_s_from_cm2_s(keys.number("pace_cm2_s", wet_pace, 40));
    return wet;
}

Charge read_charge(Reading& reading, Keys& keys, int area) {
    Charge charge;
    charge.area = area;
    charge.mix = read_mix_name(reading, keys);
    if (keys.has("drops") == keys.has("strokes"))
        keys.refuse(keys.has("strokes") ? "strokes" : "drops",
                    keys.has("drops") ? "drops and strokes in one step" : "drops is missing",
                    "one of drops and strokes: how many, 1 to 5000");
    const bool strokes = keys.has("strokes");
    charge.count = static_cast<int>(keys.whole(strokes ? "strokes" : "drops", 1, 5000, 1));
    if (strokes)
        charge.stroke_m = grid::m_from_mm(keys.number("stroke_mm", {1, 200, "mm"}));
    else if (keys.has("stroke_mm"))
        keys.refuse("stroke_mm", "stroke_mm without strokes", "strokes = how many");
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
    if (keys.has("until")) {
        dry.until = keys.word("until", stages, std::optional(Stage::dry));
        dry.share = keys.number("share", share_of_area, usual_share(*dry.until));
    } else if (keys.has("share")) {
        keys.refuse("share", "share without until", "until = the stage that this share of the area is to reach");
    }
    dry.longest_s = keys.clock("longest", dry.longest_s);
    if (!keys.has("until") && !keys.has("longest"))
        keys.refuse("until", "until and longest are missing",
                    "at least one of them: a stage, or a time such as \"10:00\"");
    dry.warm_air = keys.truth("warm_air", false);
    for (const char* key : {"air_C", "air_m_s", "blows_deg"})
        if (!dry.warm_air && keys.has(key))
            keys.refuse(key, fmt::format("{} without warm air", key), "warm_air = true");
    dry.air_temperature_K = grid::K_from_C(keys.number("air_C", {20, 80, "°C"}, 50));
    dry.air_m_s = keys.number("air_m_s", {0.1, 10, "m/s"}, 2);
    if (keys.has("blows_deg"))
        dry.blows_rad = grid::rad_from_deg(keys.number("blows_deg", degrees(), 0));
    return dry;
}

} // namespace

Act read_act(Reading& reading, StepKeys& step) {
    Keys& keys = step.keys;
    if (step.verb == "wet")
        return read_wet(keys, step.area);
    if (step.verb == "wash")
        return read_wash(reading, step);
    if (step.verb == "charge")
        return read_charge(reading, keys, step.area);
    if (step.verb == "tilt")
        return read_tilt(keys);
    if (step.verb == "lift")
        return read_lift(step);
    if (step.verb == "spatter")
        return read_spatter(reading, step);
    if (step.verb == "spray")
        return read_spray(reading, step);
    if (step.verb == "drybrush")
        return read_drybrush(reading, step);
    if (step.verb == "soften")
        return read_soften(reading, step);
    if (step.verb == "reserve")
        return Reserve{step.area, read_pace(keys, 3)};
    if (step.verb == "uncover")
        return Uncover{step.area, read_pace(keys, 10)};
    if (step.verb == "body")
        return read_body(reading, step);
    return read_dry(keys, step.area);
}

} // namespace tidemark::plan
