#include <algorithm>
#include <cmath>

#include "grid/picture.h"
#include "grid/problem.h"
#include "grid/rows.h"

namespace tidemark::grid {

namespace {

/// One target sample is a weighted mean of `weight.size()` neighbouring source samples from `first` on.
struct Mean {
    int first = 0;
    std::vector<double> weight;
};

/// Along one axis: the share each source sample has in the target's stretch when it shrinks, the two nearest
/// centres by distance when it grows.
std::vector<Mean> means(int from, int to) {
    std::vector<Mean> all(static_cast<std::size_t>(to));
    const double step = static_cast<double>(from) / to;
    for (int k = 0; k < to; ++k) {
        Mean& m = all[static_cast<std::size_t>(k)];
        if (to >= from) {
            const double centre = std::clamp((k + 0.5) * step - 0.5, 0.0, from - 1.0);
            m.first = std::min(static_cast<int>(centre), std::max(from - 2, 0));
            const double share = centre - m.first;
            m.weight = {1 - share};
            if (m.first + 1 < from) m.weight.push_back(share);
            continue;
        }
        const double begin = k * step, end = (k + 1) * step;
        m.first = static_cast<int>(begin);
        const int last = std::min(static_cast<int>(std::ceil(end - 1e-9)), from);
        for (int s = m.first; s < last; ++s)
            m.weight.push_back((std::min(end, s + 1.0) - std::max(begin, static_cast<double>(s))) / step);
    }
    return all;
}

/// `store(double, Sample&)` writes a mean back.
template <class Sample, class Store>
void resample(const Sample* source, int from_w, int from_h, int channels, Sample* target, int w, int h,
              const Store& store) {
    const std::vector<Mean> across = means(from_w, w), down = means(from_h, h);
    const std::size_t pitch = static_cast<std::size_t>(from_w) * channels;
    for_rows(h, static_cast<long>(w) * h, [&](int y) {
        const Mean& rows = down[static_cast<std::size_t>(y)];
        std::vector<double> line(pitch, 0.0);
        for (std::size_t r = 0; r < rows.weight.size(); ++r) {
            const Sample* row = source + (static_cast<std::size_t>(rows.first) + r) * pitch;
            for (std::size_t k = 0; k < pitch; ++k) line[k] += rows.weight[r] * row[k];
        }
        Sample* out = target + static_cast<std::size_t>(y) * w * channels;
        for (const Mean& m : across)
            for (int c = 0; c < channels; ++c) {
                double sum = 0;
                for (std::size_t s = 0; s < m.weight.size(); ++s)
                    sum += m.weight[s] * line[(static_cast<std::size_t>(m.first) + s) * channels + c];
                store(sum, *out++);
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
