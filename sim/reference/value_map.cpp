#include "reference/value_map.h"

#include "colour/lab.h"
#include "grid/rows.h"

#include <algorithm>
#include <cmath>

namespace tidemark::reference {

namespace {

/// Which source pixels one target pixel covers along an axis: first, and a weight each; the weights add to 1.
struct Cover {
    int first = 0;
    std::vector<float> weight;
};

std::vector<Cover> covers(int from, int to) {
    std::vector<Cover> all(to);
    const double step = static_cast<double>(from) / to;
    for (int k = 0; k < to; ++k) {
        const double begin = k * step, end = (k + 1) * step;
        if (step <= 1) {
            all[k] = {std::min(from - 1, static_cast<int>((k + 0.5) * step)), {1.0f}};
            continue;
        }
        all[k].first = static_cast<int>(begin);
        for (int p = all[k].first; p < from && p < end; ++p) {
            const double share = std::min(end, p + 1.0) - std::max(begin, static_cast<double>(p));
            all[k].weight.push_back(static_cast<float>(share / step));
        }
    }
    return all;
}

} // namespace

ValueMap value_map(const grid::Picture& picture) {
    ValueMap map{picture.width, picture.height, {}};
    map.lstar.resize(static_cast<std::size_t>(map.width) * map.height);
    grid::for_rows(map.height, static_cast<long>(map.lstar.size()), [&](int y) {
        for (int x = 0; x < map.width; ++x) {
            const std::uint8_t* rgb = picture.at(x, y);
            map.lstar[static_cast<std::size_t>(y) * map.width + x] =
                colour::lstar_from_srgb({rgb[0], rgb[1], rgb[2]});
        }
    });
    return map;
}

ValueMap resized(const ValueMap& map, int width, int height) {
    if (width == map.width && height == map.height)
        return map;
    const std::vector<Cover> across = covers(map.width, width), down = covers(map.height, height);
    ValueMap out{width, height, {}};
    out.lstar.resize(static_cast<std::size_t>(width) * height);
    grid::for_rows(height, static_cast<long>(map.lstar.size()), [&](int y) {
        for (int x = 0; x < width; ++x) {
            double sum = 0, share = 0;
            for (std::size_t j = 0; j < down[y].weight.size(); ++j)
                for (std::size_t i = 0; i < across[x].weight.size(); ++i) {
                    const double w = static_cast<double>(down[y].weight[j]) * across[x].weight[i];
                    sum += w * map.at(across[x].first + static_cast<int>(i), down[y].first + static_cast<int>(j));
                    share += w;
                }
            out.lstar[static_cast<std::size_t>(y) * width + x] = static_cast<float>(sum / share);
        }
    });
    return out;
}

} // namespace tidemark::reference
