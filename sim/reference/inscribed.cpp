#include "reference/inscribed.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidemark::reference {

namespace {

/// Least of height[v] + (x - v)² over all v, for every x; v counts from one before the first x to one after the last.
class Envelope {
  public:
    void start() { at_.clear(), from_.clear(); }
    void add(int v, std::int64_t height) {
        double from = -std::numeric_limits<double>::infinity();
        while (!at_.empty()) {
            from = meets(at_.back(), {v, height});
            if (from > from_.back())
                break;
            at_.pop_back(), from_.pop_back();
            from = -std::numeric_limits<double>::infinity();
        }
        at_.push_back({v, height}), from_.push_back(from);
    }
    /// For rising x.
    template <class See> void read(int first, int end, See&& see) const {
        std::size_t k = 0;
        for (int x = first; x < end; ++x) {
            while (k + 1 < at_.size() && from_[k + 1] < x)
                ++k;
            const std::int64_t d = x - at_[k].v;
            see(x, at_[k].height + d * d);
        }
    }

  private:
    struct Parabola {
        std::int64_t v, height;
    };
    std::vector<Parabola> at_;
    std::vector<double> from_; ///< where each becomes the least

    static double meets(const Parabola& a, const Parabola& b) {
        return static_cast<double>(b.height + b.v * b.v - a.height - a.v * a.v) / (2.0 * static_cast<double>(b.v - a.v));
    }
};

/// Along columns, in pixels.
std::vector<int> up_or_down(const std::vector<int>& label, int width, int height) {
    std::vector<int> far(label.size(), 1);
    const auto at = [width](int x, int y) { return static_cast<std::size_t>(y) * width + x; };
    for (int y = 1; y < height; ++y)
        for (int x = 0; x < width; ++x)
            if (label[at(x, y)] == label[at(x, y - 1)])
                far[at(x, y)] = far[at(x, y - 1)] + 1;
    for (int x = 0; x < width && height > 0; ++x)
        far[at(x, height - 1)] = 1;
    for (int y = height - 2; y >= 0; --y)
        for (int x = 0; x < width; ++x)
            far[at(x, y)] = label[at(x, y)] == label[at(x, y + 1)] ? std::min(far[at(x, y)], far[at(x, y + 1)] + 1) : 1;
    return far;
}

} // namespace

std::vector<std::int64_t> squared_to_others(const std::vector<int>& label, int width, int height) {
    const std::vector<int> column = up_or_down(label, width, height);
    std::vector<std::int64_t> squared(label.size());
    Envelope envelope;
    for (int y = 0; y < height; ++y) {
        const std::size_t row = static_cast<std::size_t>(y) * width;
        for (int first = 0, end = 0; first < width; first = end) {
            envelope.start();
            envelope.add(first - 1, 0);
            for (end = first; end < width && label[row + end] == label[row + first]; ++end)
                envelope.add(end, std::int64_t{column[row + end]} * column[row + end]);
            envelope.add(end, 0);
            envelope.read(first, end, [&](int x, std::int64_t d2) { squared[row + x] = d2; });
        }
    }
    return squared;
}

std::vector<Inscribed> inscribed(const Masses& m) {
    const std::vector<std::int64_t> squared = squared_to_others(m.of, m.width, m.height);
    struct Best {
        std::int64_t squared = 0;
        double off = 0; ///< squared, from the middle of the mass
    };
    std::vector<Best> best(m.list.size());
    std::vector<Inscribed> out(m.list.size());
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            const int mass = m.at(x, y);
            const std::int64_t d2 = squared[static_cast<std::size_t>(y) * m.width + x];
            Best& b = best[mass];
            if (d2 < b.squared)
                continue;
            const double dx = x + 0.5 - m.list[mass].centre_x, dy = y + 0.5 - m.list[mass].centre_y;
            const double off = dx * dx + dy * dy;
            if (d2 > b.squared || off < b.off) {
                b = {d2, off};
                out[mass] = {2 * std::sqrt(static_cast<double>(d2)) - 1, x, y};
            }
        }
    return out;
}

} // namespace tidemark::reference
