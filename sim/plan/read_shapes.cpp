#include "grid/units.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

const Range size_mm{0.2, 5000, "mm"};

/// Four numbers: a place and a size.
struct Box {
    double x_m = 0, y_m = 0, width_m = 0, height_m = 0;
};

std::optional<Box> read_box(Keys& keys, const std::string& key, const std::string& meaning) {
    const Value& value = *keys.find(key);
    const std::vector<Value>& list = value.list;
    if (value.kind != Value::Kind::list || list.size() != 4) {
        const bool is_list = value.kind == Value::Kind::list;
        const std::string what = is_list ? fmt::format("a list of {}", list.size()) : described(value);
        keys.refuse(key, fmt::format("{} is {}", key, what),
                    meaning + ", mm; a number's decimals come after a point");
        return {};
    }
    double number[4] = {};
    for (int k = 0; k < 4; ++k) {
        const Range& range = k < 2 ? place_mm : size_mm;
        if (list[k].kind != Value::Kind::number || !range.holds(list[k].number)) {
            keys.refuse(key, fmt::format("{}: number {} of {} is {}", key, k + 1, meaning, described(list[k])),
                        range.text());
            return {};
        }
        number[k] = grid::m_from_mm(list[k].number);
    }
    return Box{number[0], number[1], number[2], number[3]};
}

/// width_mm and soft_mm; false after a problem.
bool read_length(Keys& keys, const std::string& key, const Range& range, std::optional<double> otherwise, double& m) {
    const Value* value = keys.find(key);
    const double mm = keys.number(key, range, otherwise);
    m = grid::m_from_mm(mm);
    return value == nullptr ? otherwise.has_value() : value->kind == Value::Kind::number && range.holds(value->number);
}

bool read_line(Keys& keys, Area& area) {
    Line line{read_points(keys, "line_mm", *keys.find("line_mm"), 2)};
    const bool wide = read_length(keys, "width_mm", {0.2, 1000, "mm"}, {}, line.width_m);
    const bool sound = wide && !line.points.empty();
    area.form = std::move(line);
    return sound;
}

} // namespace

const std::vector<std::string>& shape_keys() {
    static const std::vector<std::string> keys{"rectangle_mm", "ellipse_mm", "polygon_mm", "line_mm"};
    return keys;
}

bool read_shape(AreaKeys& made, Area& area) {
    Keys& keys = made.keys;
    bool sound = read_length(keys, "soft_mm", {0, 500, "mm"}, 0.0, area.soft_m);
    if (made.kind == "line_mm")
        return read_line(keys, area) && sound;
    if (made.kind == "polygon_mm") {
        Polygon polygon{read_points(keys, "polygon_mm", *keys.find("polygon_mm"), 3)};
        sound = sound && !polygon.corners.empty();
        area.form = std::move(polygon);
        return sound;
    }
    const bool is_rectangle = made.kind == "rectangle_mm";
    const auto box = read_box(keys, made.kind, is_rectangle ? "[x, y, width, height]"
                                                            : "[centre x, centre y, width, height]");
    if (!box)
        return false;
    if (is_rectangle)
        area.form = Rectangle{box->x_m, box->y_m, box->width_m, box->height_m};
    else
        area.form = Ellipse{box->x_m, box->y_m, box->width_m, box->height_m};
    return sound;
}

} // namespace tidemark::plan
