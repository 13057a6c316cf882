#include "reference/simplify.h"

#include "grid/rows.h"
#include "reference/squint.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace tidemark::reference {

namespace {

using Whole = std::vector<std::int64_t>;

constexpr double unit = 1024;          // of L*
constexpr double slope_unit = 1 << 20; // of the slope of a line

/// Means over windows of 2 r + 1 pixels, cut off at the picture's border. All input is read before `out` is called first.
class Windows {
  public:
    Windows(int width, int height, int r) : w_(width), h_(height), r_(r), across_(std::size_t(width) * height) {}

    template <class Out> void means(const Whole& in, Out&& out) {
        grid::for_rows(h_, pixels(), [&](int y) {
            const std::int64_t* row = in.data() + static_cast<std::size_t>(y) * w_;
            std::int64_t* to = across_.data() + static_cast<std::size_t>(y) * w_;
            std::int64_t sum = 0;
            for (int x = 0; x < std::min(r_, w_); ++x)
                sum += row[x];
            for (int x = 0; x < w_; ++x) {
                if (x + r_ < w_)
                    sum += row[x + r_];
                if (x - r_ > 0)
                    sum -= row[x - r_ - 1];
                to[x] = sum;
            }
        });
        // Down the columns in stripes, each with its own running sums.
        constexpr int stripe = 256;
        grid::for_rows((w_ + stripe - 1) / stripe, pixels(), [&](int k) {
            const int x0 = k * stripe, n = std::min(stripe, w_ - x0);
            std::vector<std::int64_t> sum(n, 0);
            const auto row = [&](int y) { return across_.data() + static_cast<std::size_t>(y) * w_ + x0; };
            for (int y = 0; y < std::min(r_, h_); ++y)
                for (int i = 0; i < n; ++i)
                    sum[i] += row(y)[i];
            for (int y = 0; y < h_; ++y) {
                if (y + r_ < h_)
                    for (int i = 0; i < n; ++i)
                        sum[i] += row(y + r_)[i];
                if (y - r_ > 0)
                    for (int i = 0; i < n; ++i)
                        sum[i] -= row(y - r_ - 1)[i];
                const int rows = std::min(y + r_, h_ - 1) - std::max(y - r_, 0) + 1;
                for (int i = 0; i < n; ++i) {
                    const int columns = std::min(x0 + i + r_, w_ - 1) - std::max(x0 + i - r_, 0) + 1;
                    out(static_cast<std::size_t>(y) * w_ + x0 + i,
                        static_cast<double>(sum[i]) / (static_cast<double>(rows) * columns));
                }
            }
        });
    }

    long pixels() const { return static_cast<long>(w_) * h_; }

  private:
    int w_, h_, r_;
    Whole across_;
};

std::int64_t whole(double v) { return std::llround(v); }

/// One roll after another in the same memory: a guide becomes the guided filter of `in` by itself.
class Rolls {
  public:
    Rolls(const Whole& in, int width, int height, int r)
        : in_(in), width_(width), height_(height), windows_(width, height, r), product_(windows_.pixels()), square_(windows_.pixels()),
          mean_guide_(windows_.pixels()), mean_in_(windows_.pixels()), mean_square_(windows_.pixels()) {
        windows_.means(in_, [&](std::size_t p, double m) { mean_in_[p] = m; });
    }

    void roll(Whole& guide) {
        grid::for_rows(height_, windows_.pixels(), [&](int y) {
            for (std::size_t p = static_cast<std::size_t>(y) * width_; p < (static_cast<std::size_t>(y) + 1) * width_; ++p)
                square_[p] = guide[p] * guide[p], product_[p] = guide[p] * in_[p];
        });
        windows_.means(guide, [&](std::size_t p, double m) { mean_guide_[p] = m; });
        windows_.means(square_, [&](std::size_t p, double m) { mean_square_[p] = m; });
        Whole &slope = square_, &height_of = product_; // means() has read all of its input before it gives the first
        const double least = keeps_lstar * unit * keeps_lstar * unit;
        windows_.means(product_, [&](std::size_t p, double m) {
            const double shared = m - mean_guide_[p] * mean_in_[p], own = mean_square_[p] - mean_guide_[p] * mean_guide_[p];
            const double a = shared / (own + least);
            slope[p] = whole(a * slope_unit);
            height_of[p] = whole((mean_in_[p] - a * mean_guide_[p]) * unit);
        });
        windows_.means(slope, [&](std::size_t p, double m) { mean_guide_[p] = m; });
        windows_.means(height_of, [&](std::size_t p, double m) {
            guide[p] = whole(mean_guide_[p] / slope_unit * static_cast<double>(guide[p]) + m / unit);
        });
    }

  private:
    const Whole& in_;
    int width_, height_;
    Windows windows_;
    Whole product_, square_;
    std::vector<double> mean_guide_, mean_in_, mean_square_;
};

} // namespace

ValueMap simplified(const ValueMap& map, double width_pixels) {
    if (!(width_pixels > 0))
        return map;
    const ValueMap soft = blurred(map, 0.5 * width_pixels);
    const std::size_t n = map.lstar.size();
    Whole in(n), guide(n);
    for (std::size_t p = 0; p < n; ++p)
        in[p] = whole(unit * map.lstar[p]), guide[p] = whole(unit * soft.lstar[p]);
    const int r = std::max(1, static_cast<int>(std::lround(width_pixels)));
    Rolls windows(in, map.width, map.height, r);
    for (int k = 0; k < rolls; ++k)
        windows.roll(guide);
    ValueMap out = map;
    for (std::size_t p = 0; p < n; ++p)
        out.lstar[p] = static_cast<float>(std::clamp(static_cast<double>(guide[p]) / unit, 0.0, 100.0));
    return out;
}

} // namespace tidemark::reference
