#include "grid/units.h"
#include "plan/ranges_detail.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

constexpr std::size_t most_strokes = 500;

void read_from(const Plan& plan, Keys& keys, Wash& wash) {
    const double width_mm = grid::mm_from_m(plan.width_m), height_mm = grid::mm_from_m(plan.height_m);
    const bool sized = plan.width_m > 0; // else the sheet's own problem is enough
    const Range across{0, sized ? width_mm : 1e9}, down{0, sized ? height_mm : 1e9};
    const auto from = keys.pair(
        "from", across, down, fmt::format("[x, y] on the sheet in mm, up to [{:.6g}, {:.6g}]", width_mm, height_mm));
    if (!from)
        return;
    wash.travel = Travel::from_point;
    wash.from_x_m = grid::m_from_mm(from->first);
    wash.from_y_m = grid::m_from_mm(from->second);
}

void read_strokes(Keys& keys, Wash& wash) {
    wash.travel = Travel::strokes;
    const Value& value = *keys.find("strokes");
    const std::string allowed =
        fmt::format("1 to {} strokes, [[[x, y], [x, y], ...], ...], each of two points or more, mm", most_strokes);
    if (value.kind != Value::Kind::list)
        return keys.refuse("strokes", "strokes is " + described(value), allowed);
    if (value.list.empty() || value.list.size() > most_strokes)
        return keys.refuse("strokes", fmt::format("strokes holds {}", value.list.size()), allowed);
    for (const Value& stroke : value.list) {
        wash.strokes.push_back(read_points(keys, "strokes", stroke, 2));
        if (wash.strokes.back().empty())
            return;
    }
}

/// One of travel, from, order, strokes.
void read_path(Reading& reading, Keys& keys, Wash& wash) {
    const Words<Travel> travels{{"rows", Travel::rows}, {"downhill", Travel::downhill}};
    std::vector<std::string> given;
    for (const char* key : {"travel", "from", "order", "strokes"})
        if (keys.has(key))
            given.push_back(key);
    if (given.size() > 1)
        keys.refuse(given[0], fmt::format("{} in one step", fmt::join(given, " and ")), "one of them");
    wash.travel = keys.word("travel", travels, std::optional(Travel::rows));
    if (keys.has("from"))
        return read_from(reading.plan, keys, wash);
    if (keys.has("strokes"))
        return read_strokes(keys, wash);
    if (!keys.has("order"))
        return;
    wash.travel = Travel::order;
    const std::filesystem::path file = file_in_folder(reading, keys, "order");
    if (!file.empty())
        wash.order = read_sheet_picture(reading, keys, "order", file);
}

void read_brush(Reading& reading, Keys& keys, Wash& wash) {
    if (!keys.has("brush")) {
        if (keys.has("refill_s"))
            keys.refuse("refill_s", "refill_s without a brush", "brush = \"round-12\", or another one's name");
        return;
    }
    const std::string id = keys.text("brush", {}, "a brush's name in quotes");
    wash.refill_s = keys.number("refill_s", {0, 120, "s"}, wash.refill_s);
    std::vector<std::string> names;
    for (const materials::Brush& brush : reading.presets.brushes) {
        if (brush.id == id)
            wash.brush = brush;
        names.push_back(brush.id);
    }
    if (wash.brush || id.empty())
        return;
    const Hint h = hint(id, names, "");
    keys.refuse("brush", "unknown brush " + in_quotes(id) + h.nearest, h.allowed);
}

} // namespace

Act read_wash(Reading& reading, StepKeys& step) {
    Keys& keys = step.keys;
    Wash wash;
    wash.area = step.area;
    wash.mix = read_mix_name(reading, keys);
    wash.film_m = grid::m_from_um(keys.number("film_um", wash_film));
    wash.pace_m2_s = read_pace(keys, 6);
    read_path(reading, keys, wash);
    read_brush(reading, keys, wash);
    const Words<Bead> beads{{"leave", Bead::left}, {"pick-up", Bead::picked_up}};
    wash.bead = keys.word("bead", beads, std::optional(Bead::left));
    return wash;
}

} // namespace tidemark::plan
