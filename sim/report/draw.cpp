#include "report/draw_detail.h"

#include "colour/lab.h"

#include <algorithm>
#include <cmath>

namespace tidemark::report {

std::uint8_t grey_of(double lstar) {
    const double light = colour::srgb_from_linear(colour::Y_from_lstar(std::clamp(lstar, 0.0, 100.0)) / 100);
    return static_cast<std::uint8_t>(std::lround(255 * std::clamp(light, 0.0, 1.0)));
}

void fill(grid::Picture& p, int x, int y, int width, int height, Tone t) {
    for (int v = y; v < y + height; ++v)
        for (int u = x; u < x + width; ++u) {
            std::uint8_t* at = p.at(u, v);
            at[0] = t.r, at[1] = t.g, at[2] = t.b;
        }
}

void frame(grid::Picture& p, int x, int y, int width, int height, Tone t) {
    fill(p, x - 1, y - 1, width + 2, 1, t), fill(p, x - 1, y + height, width + 2, 1, t);
    fill(p, x - 1, y, 1, height, t), fill(p, x + width, y, 1, height, t);
}

} // namespace tidemark::report
