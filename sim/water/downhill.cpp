#include "water/downhill.h"

#include "grid/rows.h"
#include "water/downhill_rows.h"
#include "water/update_rows.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace tidemark::water {
namespace {

/// f(j, begin, end) for the awake cells, row after row down the slope, in blocks of columns that threads share out.
template <class F> void down_the_columns(const sheet::SheetState& s, bool towards_y, F&& f) {
    const int ny = s.geometry.py, blocks = (s.geometry.px + column_block - 1) / column_block;
#pragma omp parallel for schedule(static, 1) if (s.film_tiles.cells() > grid::parallel_from_cells)
    for (int block = 0; block < blocks; ++block) {
        const int from = block * column_block, to = from + column_block;
        for (int n = 0; n < ny; ++n) {
            const int j = towards_y ? n : ny - 1 - n;
            for (const grid::Span& span : s.film_tiles.spans(j)) {
                const int begin = std::max(span.begin, from), end = std::min(span.end, to);
                if (begin < end)
                    f(j, begin, end);
            }
        }
    }
}

template <class F> void along_the_rows(const sheet::SheetState& s, F&& f) {
    grid::for_rows(s.geometry.py, s.film_tiles.cells(), [&](int j) {
        for (const grid::Span& span : s.film_tiles.spans(j))
            f(j, span.begin, span.end);
    });
}

/// What comes into a row of a part of the sheet from above its rim (sheet/rim.h).
void arrive_from_the_rim(const sheet::SheetState& s, int j, int begin, int end, int step, float k,
                         std::vector<float>& passing) {
    constexpr int size = grid::TileSet::size;
    if (j % size != (step > 0 ? 0 : size - 1))
        return;
    const auto& tiles = s.film_tiles;
    const int above = j / size - step;
    const float* flux = s.flux_y_m2_s.row(step > 0 ? j - 1 : j);
    for (int i = begin; i < end; i += size)
        if (above < 0 || above >= tiles.tiles_y() || !tiles.awake(i / size, above))
            for (int n = i; n < std::min(i + size, end); ++n)
                passing[n] = k * std::max(static_cast<float>(step) * flux[n], 0.0f);
}

} // namespace

void foretell(const sheet::SheetState& s, const FilmParams& p, const Field<float>& pressure, const Field<float>& way,
              const Field<float>& nu_factor, Slope slope, double dt_s, Field<float>& ahead, bool of_a_part) {
    MarchRow shared{};
    shared.k = static_cast<float>(dt_s / s.geometry.cell_m);
    shared.inverse_dx = static_cast<float>(1 / s.geometry.cell_m);
    shared.nu3 = static_cast<float>(3 * p.nu_m2_s), shared.held = static_cast<float>(p.held_m);
    const auto row = [&](const Field<float>& h, int j, int to, float steep) {
        MarchRow r = shared;
        r.h = h.row(j), r.bed = s.relief_m.row(j), r.bed_to = s.relief_m.row(to), r.p = pressure.row(j);
        r.p_to = pressure.row(to), r.way = way.row(j), r.way_to = way.row(to), r.factor = nu_factor.row(j);
        r.factor_to = nu_factor.row(to), r.ahead = ahead.row(j), r.steep = std::abs(steep);
        return r;
    };
    if (slope.y != 0) {
        // What passes from row to row; nothing leaves into what sleeps, so a span begins with nothing.
        std::vector<float> passing(s.geometry.px + column_block, 0.0f);
        const int step = slope.y > 0 ? 1 : -1;
        down_the_columns(s, slope.y > 0, [&](int j, int begin, int end) {
            if (of_a_part)
                arrive_from_the_rim(s, j, begin, end, step, shared.k, passing);
            MarchRow r = row(s.film_m, j, j + step, slope.y);
            r.passing = passing.data();
            march_row(r, begin, end);
        });
    } else {
        along_the_rows(s, [&](int j, int begin, int end) {
            std::copy(s.film_m.row(j) + begin, s.film_m.row(j) + end, ahead.row(j) + begin);
        });
    }
    if (slope.x != 0)
        along_the_rows(s, [&](int j, int begin, int end) {
            const int step = slope.x > 0 ? 1 : -1;
            const float flux = of_a_part ? s.flux_x_m2_s(step > 0 ? begin - 1 : end - 1, j) : 0.0f;
            const float in = static_cast<float>(step) * flux;
            march_along(row(ahead, j, j, slope.x), begin, end, step, shared.k * std::max(in, 0.0f));
        });
}

void limit_downhill(sheet::SheetState& s, Slope slope, double dt_s, Field<float>& given) {
    const float k = static_cast<float>(dt_s / s.geometry.cell_m);
    auto &qx = s.flux_x_m2_s, &qy = s.flux_y_m2_s;
    if (std::abs(slope.y) >= std::abs(slope.x)) {
        const bool down = slope.y > 0;
        down_the_columns(s, down, [&](int j, int begin, int end) {
            chain_row({.h = s.film_m.row(j),
                       .qx = qx.row(j),
                       .qx_left = qx.row(j) - 1,
                       .q_in = qy.row(down ? j - 1 : j),
                       .q_out = qy.row(down ? j : j - 1),
                       .given = given.row(j),
                       .k = k,
                       .sign = down ? 1.0f : -1.0f},
                      begin, end);
        });
        along_the_rows(s, [&](int j, int begin, int end) {
            limit_row(qx.row(j), given.row(j), given.row(j) + 1, begin, end);
        });
        return;
    }
    along_the_rows(s, [&](int j, int begin, int end) {
        chain_along({.h = s.film_m.row(j),
                     .qy = qy.row(j),
                     .qy_up = qy.row(j - 1),
                     .q = qx.row(j),
                     .given = given.row(j),
                     .k = k},
                    begin, end, slope.x > 0 ? 1 : -1);
    });
    along_the_rows(s, [&](int j, int begin, int end) {
        limit_row(qy.row(j), given.row(j), given.row(j + 1), begin, end);
    });
}

} // namespace tidemark::water
