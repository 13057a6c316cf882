#include "report/draw_detail.h"

namespace tidemark::report {

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
