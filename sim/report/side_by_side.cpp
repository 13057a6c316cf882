#include "report/side_by_side.h"

#include "plan/coverage.h"
#include "report/draw_detail.h"
#include "report/enlarge.h"
#include "report/lettering_detail.h"

#include <algorithm>
#include <cmath>

namespace tidemark::report {

namespace {

constexpr int gap = 20, dot = 2, line_pitch = dot * (letter_rows + 2), above_text = 8;
constexpr std::uint8_t ink = 20, ground = 176;
constexpr double most_of_it = 0.6; ///< of width and height: then it is the sheet that is shown

int factor_for(int cells_wide, int cells_high, int piece_px) {
    return std::clamp(static_cast<int>(std::lround(static_cast<double>(piece_px) / std::max(cells_wide, cells_high))), 1, 16);
}

} // namespace

Cut cut_around(const plan::Plan& plan, const std::vector<int>& steps, int nx, int ny, double margin_m) {
    int left = nx, top = ny, right = -1, bottom = -1;
    for (const int k : steps) {
        if (!plan::paints(plan.steps[k]) && plan.steps[k].area() < 0) continue;
        const grid::Field<float> cover = plan::coverage(plan, plan.steps[k].area(), nx, ny);
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i)
                if (cover(i, j) >= plan::half_covered)
                    left = std::min(left, i), right = std::max(right, i), top = std::min(top, j), bottom = std::max(bottom, j);
    }
    const Cut all{0, 0, nx, ny};
    if (right < 0) return all;
    const int margin = static_cast<int>(std::lround(margin_m * nx / plan.width_m));
    left = std::max(0, left - margin), top = std::max(0, top - margin);
    right = std::min(nx - 1, right + margin), bottom = std::min(ny - 1, bottom + margin);
    const Cut part{left, top, right - left + 1, bottom - top + 1};
    return part.width > most_of_it * nx && part.height > most_of_it * ny ? all : part;
}

grid::Picture cut(const grid::Picture& p, const Cut& c) {
    grid::Picture out{c.width, c.height, std::vector<std::uint8_t>(std::size_t{3} * c.width * c.height)};
    for (int y = 0; y < c.height; ++y) std::copy_n(p.at(c.x, c.y + y), 3 * c.width, out.at(0, y));
    return out;
}

PageSize page_size(int pieces, int cells_wide, int cells_high, int lines, int piece_px) {
    const int factor = factor_for(cells_wide, cells_high, piece_px);
    const int width = factor * cells_wide + gap, height = factor * cells_high + above_text + lines * line_pitch + gap;
    PageSize best;
    double best_off = 1e9;
    for (int columns = 1; columns <= pieces; ++columns) {
        const int rows = (pieces + columns - 1) / columns;
        const double off = std::fabs(std::log(0.75 * columns * width / (static_cast<double>(rows) * height)));
        if (off < best_off - 1e-9) best_off = off, best = {columns, columns * width + gap, rows * height + gap};
    }
    return best;
}

grid::Picture side_by_side(const std::vector<SheetPiece>& pieces, int piece_px) {
    const grid::Picture& first = pieces.front().picture;
    const int factor = factor_for(first.width, first.height, piece_px);
    const int width = factor * first.width, height = factor * first.height;
    std::vector<std::vector<std::string>> texts;
    std::size_t lines = 0;
    for (const SheetPiece& piece : pieces) {
        texts.emplace_back();
        for (const std::string& caption : piece.captions)
            for (const std::string& line : wrapped(caption, width, dot)) texts.back().push_back(line);
        lines = std::max(lines, texts.back().size());
    }
    const PageSize page = page_size(static_cast<int>(pieces.size()), first.width, first.height, static_cast<int>(lines), piece_px);
    grid::Picture all{page.width, page.height, std::vector<std::uint8_t>(std::size_t{3} * page.width * page.height, ground)};
    const int down = height + above_text + static_cast<int>(lines) * line_pitch + gap;
    for (std::size_t n = 0; n < pieces.size(); ++n) {
        const int x = gap + static_cast<int>(n) % page.columns * (width + gap), y = gap + static_cast<int>(n) / page.columns * down;
        const grid::Picture large = enlarged(pieces[n].picture, factor);
        for (int v = 0; v < height; ++v) std::copy_n(large.at(0, v), 3 * width, all.at(x, y + v));
        for (std::size_t k = 0; k < texts[n].size(); ++k)
            draw_text(all, x, y + height + above_text + static_cast<int>(k) * line_pitch, texts[n][k], dot, ink);
    }
    return all;
}

} // namespace tidemark::report
