#include <algorithm>
#include <cmath>
#include <type_traits>
#include <vector>

#include "grid/picture.h"
#include "grid/problem.h"
#include "grid/rows.h"

namespace tidemark::grid {

namespace {

/// Along one axis: target sample k is the mean of `taps` neighbouring source samples from first[k] on, with weights
/// from weight[k * taps] on; those that go beyond what it needs are 0, and may lie beyond the source's end.
struct Means {
    int taps = 1;
    std::vector<int> first;
    std::vector<double> weight;
};

/// The share each source sample has in the target's stretch when it shrinks, the two nearest centres by distance when
/// it grows.
Means means(int from, int to) {
    const double step = static_cast<double>(from) / to;
    Means m;
    m.taps = to >= from ? 2 : static_cast<int>(std::ceil(step)) + 1;
    m.first.resize(static_cast<std::size_t>(to));
    m.weight.assign(static_cast<std::size_t>(to) * m.taps, 0.0);
    for (int k = 0; k < to; ++k) {
        double* weight = &m.weight[static_cast<std::size_t>(k) * m.taps];
        int& first = m.first[static_cast<std::size_t>(k)];
        if (to >= from) {
            const double centre = std::clamp((k + 0.5) * step - 0.5, 0.0, from - 1.0);
            first = std::min(static_cast<int>(centre), std::max(from - 2, 0));
            const double share = centre - first;
            weight[0] = 1 - share;
            if (first + 1 < from) weight[1] = share;
            continue;
        }
        const double begin = k * step, end = (k + 1) * step;
        first = static_cast<int>(begin);
        const int last = std::min(static_cast<int>(std::ceil(end - 1e-9)), from);
        for (int s = first; s < std::min(last, first + m.taps); ++s)
            weight[s - first] = (std::min(end, s + 1.0) - std::max(begin, static_cast<double>(s))) / step;
    }
    return m;
}

// Overloads, not a template: only free functions can have clones.
TIDEMARK_CLONES void add_row(const float* __restrict row, double weight, double* __restrict line, std::size_t n) {
    for (std::size_t k = 0; k < n; ++k) line[k] += weight * row[k];
}
TIDEMARK_CLONES void add_row(const std::uint8_t* __restrict row, double weight, double* __restrict line, std::size_t n) {
    for (std::size_t k = 0; k < n; ++k) line[k] += weight * row[k];
}

/// Means of a row. With the number of taps known when this is compiled it takes a third of the time.
template <int known_taps, class Sample, class Store>
void mean_row(const Means& across, const double* line, int channels, Sample* out, int w, const Store& store) {
    const int taps = known_taps > 0 ? known_taps : across.taps;
    const double* weight = across.weight.data();
    for (int k = 0; k < w; ++k, weight += taps) {
        const double* from = line + static_cast<std::size_t>(across.first[k]) * channels;
        for (int c = 0; c < channels; ++c, ++from) {
            double sum = 0;
            for (int s = 0; s < taps; ++s) sum += weight[s] * from[s * channels];
            store(sum, *out++);
        }
    }
}

/// `store(double, Sample&)` writes a mean back.
template <class Sample, class Store>
void resample(const Sample* source, int from_w, int from_h, int channels, Sample* target, int w, int h,
              const Store& store) {
    const Means across = means(from_w, w), down = means(from_h, h);
    const std::size_t pitch = static_cast<std::size_t>(from_w) * channels;
    for_rows(h, static_cast<long>(w) * h, [&](int y) {
        std::vector<double> line(pitch + static_cast<std::size_t>(across.taps) * channels, 0.0);
        for (int r = 0; r < down.taps; ++r)
            if (const double weight = down.weight[static_cast<std::size_t>(y) * down.taps + r]; weight != 0)
                add_row(source + (static_cast<std::size_t>(down.first[y]) + r) * pitch, weight, line.data(), pitch);
        Sample* out = target + static_cast<std::size_t>(y) * w * channels;
        const auto row = [&](auto taps) { mean_row<taps()>(across, line.data(), channels, out, w, store); };
        switch (across.taps) {
        case 2: return row(std::integral_constant<int, 2>{});
        case 3: return row(std::integral_constant<int, 3>{});
        case 4: return row(std::integral_constant<int, 4>{});
        default: return row(std::integral_constant<int, 0>{});
        }
    });
}

void refuse_empty(int from_w, int from_h, int w, int h) {
    if (from_w < 1 || from_h < 1 || w < 1 || h < 1) throw InternalError("a picture without pixels can't be resized");
}

} // namespace

Picture resized(const Picture& p, int width, int height) {
    refuse_empty(p.width, p.height, width, height);
    Picture out{width, height, std::vector<std::uint8_t>(3 * static_cast<std::size_t>(width) * height)};
    resample(p.rgb.data(), p.width, p.height, 3, out.rgb.data(), width, height, [](double v, std::uint8_t& code) {
        code = static_cast<std::uint8_t>(v + 0.5); // a mean of 0 ... 255 stays in range
    });
    return out;
}

GreyPicture resized(const GreyPicture& p, int width, int height) {
    refuse_empty(p.width, p.height, width, height);
    GreyPicture out{width, height, std::vector<float>(static_cast<std::size_t>(width) * height)};
    resample(p.value.data(), p.width, p.height, 1, out.value.data(), width, height,
             [](double v, float& grey) { grey = static_cast<float>(v); });
    return out;
}

} // namespace tidemark::grid
