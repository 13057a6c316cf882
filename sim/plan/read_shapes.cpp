#include "grid/units.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

const Range place_mm{-5000, 5000, "mm"}, size_mm{0.2, 5000, "mm"};
constexpr std::size_t most_points = 200;

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

std::optional<Point> point_of(const Value& value) {
    const auto is_place = [](const Value& v) { return v.kind == Value::Kind::number && place_mm.holds(v.number); };
    if (value.kind != Value::Kind::list || value.list.size() != 2 ||
        !std::all_of(value.list.begin(), value.list.end(), is_place))
        return {};
    return Point{grid::m_from_mm(value.list[0].number), grid::m_from_mm(value.list[1].number)};
}

/// What of a point is wrong, in words.
std::string fault_of(const Value& value) {
    if (value.kind != Value::Kind::list)
        return described(value);
    if (value.list.size() != 2)
        return fmt::format("a list of {}", value.list.size());
    return fmt::format("[{}, {}]", described(value.list[0]), described(value.list[1]));
}

/// Empty after a problem.
std::vector<Point> read_points(Keys& keys, const std::string& key, std::size_t fewest) {
    const std::string allowed = fmt::format("{} to {} points, [[x, y], [x, y], ...], mm", fewest, most_points);
    const Value& value = *keys.find(key);
    if (value.kind != Value::Kind::list) {
        keys.refuse(key, fmt::format("{} is {}", key, described(value)), allowed);
        return {};
    }
    std::vector<Point> points;
    for (const Value& item : value.list) {
        const std::optional<Point> point = point_of(item);
        if (!point) {
            keys.refuse(key, fmt::format("{}: point {} is {}", key, points.size() + 1, fault_of(item)),
                        "[x, y], each " + place_mm.text());
            return {};
        }
        points.push_back(*point);
        if (points.size() > most_points)
            break;
    }
    if (points.size() >= fewest && points.size() <= most_points)
        return points;
    const char* plural = value.list.size() == 1 ? "" : "s";
    keys.refuse(key, fmt::format("{} holds {} point{}", key, value.list.size(), plural), allowed);
    return {};
}

/// width_mm and soft_mm; false after a problem.
bool read_length(Keys& keys, const std::string& key, const Range& range, std::optional<double> otherwise, double& m) {
    const Value* value = keys.find(key);
    const double mm = keys.number(key, range, otherwise);
    m = grid::m_from_mm(mm);
    return value == nullptr ? otherwise.has_value() : value->kind == Value::Kind::number && range.holds(value->number);
}

bool read_line(Keys& keys, Area& area) {
    Line line{read_points(keys, "line_mm", 2)};
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
        Polygon polygon{read_points(keys, "polygon_mm", 3)};
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
