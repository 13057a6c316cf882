#include "reference/masks.h"

#include "grid/rows.h"

#include <algorithm>
#include <array>

namespace tidemark::reference {

namespace {

constexpr int weights[3] = {1, 4, 1}, whole = 36; // what is two pixels wide keeps the larger part of its own

/// Parts of `whole` of the pixel for each group.
std::array<int, max_groups> cover(const Groups& g, int x, int y) {
    std::array<int, max_groups> sum{};
    for (int dy = -1; dy <= 1; ++dy)
        for (int dx = -1; dx <= 1; ++dx)
            sum[g.at(std::clamp(x + dx, 0, g.width - 1), std::clamp(y + dy, 0, g.height - 1))] +=
                weights[dx + 1] * weights[dy + 1];
    return sum;
}

} // namespace

std::vector<grid::GreyPicture> group_masks(const Groups& g) {
    std::vector<grid::GreyPicture> masks(g.count, {g.width, g.height, std::vector<float>(g.group.size())});
    grid::for_rows(g.height, static_cast<long>(g.group.size()), [&](int y) {
        for (int x = 0; x < g.width; ++x) {
            const std::array<int, max_groups> sum = cover(g, x, y);
            std::array<int, max_groups> code{}, over{};
            int left = 255;
            for (int k = 0; k < g.count; ++k)
                code[k] = 255 * sum[k] / whole, over[k] = 255 * sum[k] % whole, left -= code[k];
            for (; left > 0; --left) {
                const auto most = std::max_element(over.begin(), over.end());
                ++code[most - over.begin()], *most = -1;
            }
            for (int k = 0; k < g.count; ++k)
                masks[k].value[static_cast<std::size_t>(y) * g.width + x] = static_cast<float>(code[k]) / 255.0f;
        }
    });
    return masks;
}

} // namespace tidemark::reference
