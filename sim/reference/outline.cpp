#include "reference/outline.h"

#include "grid/within.h"

#include <array>
#include <cmath>
#include <cstdint>

namespace tidemark::reference {

namespace {

enum Way { right, down, left, up };
constexpr std::array<Way, 4> ways{right, down, left, up};
constexpr int step_x[] = {1, 0, -1, 0}, step_y[] = {0, 1, 0, -1};

/// The corners of pixels and the sides between them, of which those are borders that part two masses.
class Sides {
  public:
    explicit Sides(const Masses& masses)
        : masses_(masses), traced_(2 * static_cast<std::size_t>(masses.width + 1) * (masses.height + 1), 0) {}

    bool border(int x, int y, Way way) const {
        if (way == left) return border(x - 1, y, right);
        if (way == up) return border(x, y - 1, down);
        if (x < 0 || y < 0 || x > masses_.width || y > masses_.height) return false;
        if (way == right)
            return y > 0 && y < masses_.height && x < masses_.width && masses_.at(x, y - 1) != masses_.at(x, y);
        return x > 0 && x < masses_.width && y < masses_.height && masses_.at(x - 1, y) != masses_.at(x, y);
    }
    int borders_at(int x, int y) const {
        int n = 0;
        for (const Way way : ways) n += border(x, y, way);
        return n;
    }
    std::uint8_t& traced(int x, int y, Way way) {
        if (way == left) return traced(x - 1, y, right);
        if (way == up) return traced(x, y - 1, down);
        return traced_[2 * (static_cast<std::size_t>(y) * (masses_.width + 1) + x) + way];
    }

  private:
    const Masses& masses_;
    std::vector<std::uint8_t> traced_; ///< of each corner, the side to its right and the one below
};

/// In pixels, from a corner on until borders meet, or round.
Outline traced_from(Sides& sides, int x, int y, Way way, bool ring) {
    Outline line{{}, ring};
    if (!ring) line.points.push_back({static_cast<double>(x), static_cast<double>(y)});
    for (;;) {
        sides.traced(x, y, way) = 1;
        line.points.push_back({x + 0.5 * step_x[way], y + 0.5 * step_y[way]});
        x += step_x[way], y += step_y[way];
        if (sides.borders_at(x, y) != 2) break;
        for (const Way next : ways)
            if (next != (way + 2) % 4 && sides.border(x, y, next)) {
                way = next;
                break;
            }
        if (sides.traced(x, y, way)) return line; // round
    }
    line.points.push_back({static_cast<double>(x), static_cast<double>(y)});
    return line;
}

/// Quarter, half, quarter of each point and its neighbours, over and over: a variance of half a step² each time.
void smooth(Outline& line, int times) {
    const std::size_t n = line.points.size();
    if (n < 3) return;
    for (std::vector<PointMm> before; times > 0; --times) {
        before = line.points;
        const std::size_t first = line.ring ? 0 : 1, end = line.ring ? n : n - 1;
        for (std::size_t k = first; k < end; ++k) {
            const PointMm &a = before[(k + n - 1) % n], &b = before[k], &c = before[(k + 1) % n];
            line.points[k] = {(a.x + 2 * b.x + c.x) / 4, (a.y + 2 * b.y + c.y) / 4};
        }
    }
}

double distance(const PointMm& p, const PointMm& a, const PointMm& b) {
    const double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
    const double along = length2 > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / length2 : 0;
    const double at = along < 0 ? 0 : along > 1 ? 1 : along;
    return std::hypot(p.x - a.x - at * dx, p.y - a.y - at * dy);
}

/// Marks the points between two that stay that must stay, too.
void keep_furthest(const std::vector<PointMm>& points, std::size_t first, std::size_t last, double tolerance,
                   std::vector<std::uint8_t>& stays) {
    std::vector<std::pair<std::size_t, std::size_t>> todo{{first, last}}; // no recursion: a line may be long
    while (!todo.empty()) {
        const auto [a, b] = todo.back();
        todo.pop_back();
        double most = tolerance;
        std::size_t at = a;
        for (std::size_t k = a + 1; k < b; ++k)
            if (const double d = distance(points[k], points[a], points[b]); d > most) most = d, at = k;
        if (at == a) continue;
        stays[at] = 1;
        todo.push_back({a, at});
        todo.push_back({at, b});
    }
}

} // namespace

Outline simplified(const Outline& line, double tolerance_mm) {
    if (!(tolerance_mm > 0) || line.points.size() < 3) return line;
    std::vector<PointMm> points = line.points;
    std::size_t half = 0;
    if (line.ring) {
        points.push_back(points.front());
        double most = 0;
        for (std::size_t k = 1; k < line.points.size(); ++k)
            if (const double d = std::hypot(points[k].x - points[0].x, points[k].y - points[0].y); d > most)
                most = d, half = k;
    }
    std::vector<std::uint8_t> stays(points.size(), 0);
    stays.front() = stays[half] = stays.back() = 1;
    if (half > 0) keep_furthest(points, 0, half, tolerance_mm, stays);
    keep_furthest(points, half, points.size() - 1, tolerance_mm, stays);
    Outline fewer{{}, line.ring};
    for (std::size_t k = 0; k < line.points.size(); ++k)
        if (stays[k]) fewer.points.push_back(points[k]);
    return fewer;
}

std::vector<Outline> outlines(const Masses& masses, double width_mm, double height_mm, const Tracing& how) {
    grid::within("smooth_mm", how.smooth_mm, {0, 20, "mm"});
    grid::within("tolerance_mm", how.tolerance_mm, {0, 20, "mm"});
    Sides sides(masses);
    std::vector<Outline> lines;
    for (const bool ring : {false, true}) // what is left without meeting another is a ring
        for (int y = 0; y <= masses.height; ++y)
            for (int x = 0; x <= masses.width; ++x) {
                const int borders = sides.borders_at(x, y);
                if (borders == 0 || (borders == 2) != ring) continue;
                for (const Way way : ways)
                    if (sides.border(x, y, way) && !sides.traced(x, y, way))
                        lines.push_back(traced_from(sides, x, y, way, ring));
            }
    const double mm_x = width_mm / masses.width, mm_y = height_mm / masses.height;
    const double sigma = how.smooth_mm / std::sqrt(mm_x * mm_y); // pixels
    for (Outline& line : lines) {
        smooth(line, static_cast<int>(std::lround(2 * sigma * sigma)));
        for (PointMm& p : line.points) p = {p.x * mm_x, p.y * mm_y};
        line = simplified(line, how.tolerance_mm);
    }
    return lines;
}

} // namespace tidemark::reference
