#include "grid/units.h"
#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

constexpr std::size_t most_points = 200;

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

} // namespace

std::vector<Point> read_points(Keys& keys, const std::string& key, const Value& value, std::size_t fewest) {
    const std::string allowed = fmt::format("{} to {} points, [[x, y], [x, y], ...], mm", fewest, most_points);
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

} // namespace tidemark::plan
