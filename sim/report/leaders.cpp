#include "report/leaders_detail.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace tidemark::report {

namespace {

constexpr int step = 3, apart = 2; // pixels between places that are tried; round what is taken

/// Calls `at(x, y)` along the line, both ends with it.
template <class At> void along(int x0, int y0, int x1, int y1, At&& at) {
    const int steps = std::max({1, std::abs(x1 - x0), std::abs(y1 - y0)});
    for (int k = 0; k <= steps; ++k)
        at(x0 + static_cast<int>(std::lround(static_cast<double>(x1 - x0) * k / steps)),
           y0 + static_cast<int>(std::lround(static_cast<double>(y1 - y0) * k / steps)));
}

} // namespace

CaptionSpot nearest_in(const Box& b, int x, int y) {
    return {std::clamp(x, b.x, b.x + b.width - 1), std::clamp(y, b.y, b.y + b.height - 1)};
}

FreeRoom::FreeRoom(const std::vector<int>& part, int width, int height)
    : width_(width), height_(height), outlines_((static_cast<std::size_t>(width) + 1) * (height + 1)),
      taken_(static_cast<std::size_t>(width) * height) {
    const auto corners = static_cast<std::size_t>(width) + 1;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const std::size_t p = static_cast<std::size_t>(y) * width + x, c = (y + 1) * corners + x + 1;
            const bool outline = (x > 0 && part[p - 1] != part[p]) || (y > 0 && part[p - width] != part[p]);
            outlines_[c] = outline + outlines_[c - 1] + outlines_[c - corners] - outlines_[c - corners - 1];
        }
}

void FreeRoom::take(const Box& b) {
    const int left = std::max(0, b.x - apart), right = std::min(width_, b.x + b.width + apart);
    for (int y = std::max(0, b.y - apart); y < std::min(height_, b.y + b.height + apart); ++y)
        std::fill(taken_.begin() + static_cast<long>(y) * width_ + left, taken_.begin() + static_cast<long>(y) * width_ + right, std::uint8_t{1});
}

void FreeRoom::take_with_line(int x, int y, const Box& b) {
    const CaptionSpot end = nearest_in(b, x, y);
    along(x, y, end.x, end.y, [&](int i, int j) { take({i, j, 1, 1}); });
    take(b);
}

bool FreeRoom::is_free(const Box& b) const {
    if (b.x < 0 || b.y < 0 || b.x + b.width > width_ || b.y + b.height > height_)
        return false;
    const auto corners = static_cast<std::size_t>(width_) + 1;
    const auto at = [&](int x, int y) { return outlines_[y * corners + x]; };
    if (at(b.x + b.width, b.y + b.height) - at(b.x, b.y + b.height) - at(b.x + b.width, b.y) + at(b.x, b.y) > 0)
        return false;
    for (int y = b.y; y < b.y + b.height; ++y)
        for (int x = b.x; x < b.x + b.width; ++x)
            if (taken(x, y))
                return false;
    return true;
}

bool FreeRoom::line_is_free(int x, int y, const Box& b) const {
    const CaptionSpot end = nearest_in(b, x, y);
    bool free = true;
    along(x, y, end.x, end.y, [&](int i, int j) {
        const bool starts = std::max(std::abs(i - x), std::abs(j - y)) <= 2 * apart; // its own dot
        free = free && (starts || !taken(i, j));
    });
    return free;
}

std::optional<Box> FreeRoom::near(int x, int y, int box_width, int box_height, int reach) const {
    std::optional<Box> best;
    std::int64_t nearest = static_cast<std::int64_t>(reach) * reach + 1;
    const auto look = [&](int left, int top) {
        const Box b{left, top, box_width, box_height};
        const CaptionSpot end = nearest_in(b, x, y);
        const std::int64_t dx = end.x - x, dy = end.y - y, away = dx * dx + dy * dy;
        if (away < nearest && away > 0 && is_free(b) && line_is_free(x, y, b))
            nearest = away, best = b;
    };
    for (int ring = step; ring <= reach + box_width; ring += step) { // round the place, from near to far
        if (best && static_cast<std::int64_t>(ring - box_width) * std::abs(ring - box_width) > nearest)
            break;
        const int left = x - box_width / 2, top = y - box_height / 2;
        for (int d = -ring; d <= ring; d += step)
            look(left + d, top - ring), look(left + d, top + ring), look(left - ring, top + d), look(left + ring, top + d);
    }
    return best;
}

} // namespace tidemark::report
