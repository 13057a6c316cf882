#include "grid/units.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

template <class Preset> std::vector<std::string> ids_of(const std::vector<Preset>& presets) {
    std::vector<std::string> ids;
    for (const Preset& preset : presets)
        ids.push_back(preset.id);
    return ids;
}

const Range side_mm{30, 1200, "mm"};

void read_size(Reading& reading, Keys& sheet) {
    const std::string meaning = "[width, height], each " + side_mm.text();
    if (!sheet.has("size_mm"))
        return sheet.refuse("size_mm", "size_mm is missing", meaning);
    const auto size = sheet.pair("size_mm", side_mm, side_mm, meaning);
    if (!size)
        return;
    reading.plan.width_m = grid::m_from_mm(size->first);
    reading.plan.height_m = grid::m_from_mm(size->second);
}

void read_paper(Reading& reading, Keys& sheet) {
    const std::string id = sheet.text("paper", {}, "a paper's name in quotes, such as \"cold-pressed-300\"");
    if (id.empty())
        return;
    if (const materials::Paper* paper = reading.presets.paper(id)) {
        reading.plan.paper = *paper;
        return;
    }
    const Hint h = hint(id, ids_of(reading.presets.papers), "papers.csv holds no paper");
    sheet.refuse("paper", "unknown paper " + in_quotes(id) + h.nearest, h.allowed);
}

void set_room(Reading& reading, Keys& keys, const std::string& key, const std::string& id) {
    if (const materials::Room* room = reading.presets.room(id)) {
        reading.plan.room = *room;
        return;
    }
    const Hint h = hint(id, ids_of(reading.presets.rooms), "rooms.csv holds no room");
    keys.refuse(key, "unknown room " + in_quotes(id) + h.nearest, h.allowed);
}

/// room = { base = "temperate-studio", humidity_pct = 70 }: a preset with some of its values changed.
void read_changed_room(Reading& reading, const Value& table) {
    Keys keys(table, "[sheet]: room", reading.problems);
    set_room(reading, keys, "base", keys.text("base", "temperate-studio"));
    materials::Room& room = reading.plan.room;
    const materials::Room base = room;
    const auto changed = [&](const char* key, double lo, double hi, const char* unit, double& value) {
        if (keys.has(key))
            value = keys.number(key, {lo, hi, unit}, value);
    };
    double temperature_C = room.temperature_K - 273.15, humidity_pct = room.humidity * 100;
    changed("temperature_C", 0, 50, "°C", temperature_C);
    changed("humidity_pct", 1, 99, "%", humidity_pct);
    changed("air_m_s", 0, 20, "m/s", room.air_m_s);
    changed("sun_W_m2", 0, 1200, "W/m²", room.sun_W_m2);
    if (keys.has("temperature_C"))
        room.temperature_K = grid::K_from_C(temperature_C);
    if (keys.has("humidity_pct"))
        room.humidity = humidity_pct / 100;
    keys.finish();
    if (table.table.size() > (keys.has("base") ? 1u : 0u))
        room.id = base.id + ", changed by the plan";
}

void read_room(Reading& reading, Keys& sheet) {
    const Value* room = sheet.find("room");
    if (room != nullptr && room->kind == Value::Kind::table)
        return read_changed_room(reading, *room);
    set_room(reading, sheet, "room", sheet.text("room", "temperate-studio"));
}

} // namespace

void read_sheet(Reading& reading, Keys& root) {
    const Value* table = root.table("sheet");
    if (table == nullptr) {
        const bool absent = !root.has("sheet");
        if (absent)
            root.refuse("sheet", "[sheet] is missing", "[sheet] with size_mm and paper");
        return;
    }
    Keys sheet(*table, "[sheet]", reading.problems);
    read_size(reading, sheet);
    read_paper(reading, sheet);
    read_room(reading, sheet);
    Plan& plan = reading.plan;
    plan.board = sheet.word("board", boards, std::optional(Board::sealed));
    plan.tilt_rad = grid::rad_from_deg(sheet.number("tilt_deg", {0, max_tilt_deg, "degrees"}, 0));
    plan.tilt_direction_rad = grid::rad_from_deg(sheet.number("tilt_direction_deg", degrees(), 90));
    plan.seed = static_cast<std::uint64_t>(sheet.whole("seed", 0, 999'999'999, 1));
    sheet.finish();
}

} // namespace tidemark::plan
