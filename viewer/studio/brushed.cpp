#include "viewer/studio/brushed_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace tidemark::viewer {

using reference::PictureMasses;

namespace {

double squared_from(const reference::Point& a, const reference::Point& b, double x, double y) {
    const double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length2 = dx * dx + dy * dy;
    const double t = length2 > 0 ? std::clamp(((x - a.x_mm) * dx + (y - a.y_mm) * dy) / length2, 0.0, 1.0) : 0;
    return std::pow(x - a.x_mm - t * dx, 2) + std::pow(y - a.y_mm - t * dy, 2);
}

/// Names go to the masses that have most of what they named.
std::vector<reference::Edit> names_carried(const PictureMasses& before, const reference::Masses& after) {
    std::vector<reference::Edit> names;
    std::vector<bool> taken(after.list.size());
    for (std::size_t k = 0; k < before.names.size(); ++k) {
        if (before.names[k].empty()) continue;
        std::map<int, std::int64_t> shared;
        for (std::size_t p = 0; p < after.of.size(); ++p)
            if (before.masses.of[p] == static_cast<int>(k)) ++shared[after.of[p]];
        int best = -1;
        for (const auto& [mass, pixels] : shared)
            if (!taken[static_cast<std::size_t>(mass)] && (best < 0 || pixels > shared[best])) best = mass;
        if (best < 0) continue;
        taken[static_cast<std::size_t>(best)] = true;
        const int number = after.list[static_cast<std::size_t>(best)].number;
        names.push_back({reference::NameMass{text_of(number), before.names[k]}, fmt::format("mass {} called {}", number, before.names[k])});
    }
    return names;
}

} // namespace

std::string text_of(int mass) { return std::to_string(mass); }

int group_of(const PictureMasses& found, int mass) {
    for (const reference::Mass& m : found.masses.list)
        if (m.number == mass) return m.group;
    throw grid::BadInput("mass " + text_of(mass), "there is none of that number", "a mass of the picture");
}

bool near_stroke(const std::vector<reference::Point>& stroke, double radius_mm, double x, double y) {
    for (std::size_t k = 0; k < stroke.size(); ++k)
        if (squared_from(stroke[k], stroke[std::min(k + 1, stroke.size() - 1)], x, y) <= radius_mm * radius_mm) return true;
    return false;
}

bool within_outline(const std::vector<reference::Point>& outline, double x, double y) {
    bool in = false;
    for (std::size_t k = 0, last = outline.size() - 1; k < outline.size(); last = k++) {
        const reference::Point &a = outline[k], &b = outline[last];
        if ((a.y_mm > y) != (b.y_mm > y) && x < (b.x_mm - a.x_mm) * (y - a.y_mm) / (b.y_mm - a.y_mm) + a.x_mm) in = !in;
    }
    return in;
}

void paint(Choices& c, const PictureMasses& found, int group, const std::function<bool(double, double)>& covers) {
    auto groups = std::make_shared<reference::Groups>(found.groups);
    for (int y = 0; y < groups->height; ++y)
        for (int x = 0; x < groups->width; ++x)
            if (covers((x + 0.5) / found.pixels_per_mm, (y + 0.5) / found.pixels_per_mm))
                groups->group[static_cast<std::size_t>(y) * groups->width + x] = static_cast<std::uint8_t>(group);
    c.edits = names_carried(found, find_masses(*groups, found.map));
    c.painted = std::move(groups);
}

} // namespace tidemark::viewer
