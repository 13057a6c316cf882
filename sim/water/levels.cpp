// The levels of the multigrid: what they hold, and how the coarse ones are made of the finest.
#include "grid/problem.h"
#include "grid/rows.h"
#include "water/level_detail.h"
#include "water/minimal_residual_rows.h"

#include <algorithm>
#include <fmt/format.h>
#include <omp.h>

namespace tidemark::water {
namespace {

constexpr int coarsest_cells = 12; // along the shorter side

} // namespace

void find_pressures(Level& v) {
    each_part(v, [&](int j, int parity, int begin, int end) {
        pressure_of_row(part_of(v, j, parity), begin, end);
    });
}

Multigrid::Multigrid(int nx, int ny, double G_fine) {
    int block = grid::TileSet::size;
    if (nx <= 0 || ny <= 0 || nx % block || ny % block)
        throw grid::InternalError(fmt::format("a film of {} x {} cells is not made of whole tiles", nx, ny));
    double G = G_fine;
    for (;;) {
        Level& v = levels_.emplace_back();
        v.nx = nx, v.ny = ny, v.block = std::max(4, block), v.G = static_cast<float>(G);
        for (auto* f : {&v.cx, &v.cy, &v.diagonal, &v.stiffness, &v.wet, &v.lone, &v.de, &v.dp, &v.r1, &v.r2})
            f->resize(nx, ny);
        if (nx % 2 || ny % 2 || nx < coarsest_cells || ny < coarsest_cells)
            break;
        nx /= 2, ny /= 2, G /= 4, block /= 2;
    }
    stubborn_ = Stubborn(levels_.front().nx, levels_.front().ny);
    set_spans(grid::TileSet(levels_.front().nx, levels_.front().ny, true));
}

void Multigrid::set_spans(const grid::TileSet& tiles, bool slept) {
    int size = grid::TileSet::size;
    for (std::size_t l = 0; l < levels_.size(); ++l, size /= 2) {
        Level& v = levels_[l];
        v.spans.clear();
        v.first.assign(v.ny + 1, 0);
        v.cells = 0;
        for (int j = 0; j < v.ny; ++j) {
            v.first[j] = static_cast<int>(v.spans.size());
            if (size < 4) { // coarse levels are small: whole rows
                v.spans.push_back({0, v.nx});
            } else {
                for (const grid::Span& s : tiles.spans(j << l))
                    v.spans.push_back({s.begin >> l, s.end >> l});
            }
            for (int k = v.first[j]; k < static_cast<int>(v.spans.size()); ++k)
                v.cells += v.spans[k].end - v.spans[k].begin;
        }
        v.first[v.ny] = static_cast<int>(v.spans.size());
    }
    // What falls asleep must not leave its last increments to be read by its neighbours.
    if (!slept)
        return;
    for (Level& v : levels_)
        for (auto* f : {&v.cx, &v.cy, &v.diagonal, &v.stiffness, &v.wet, &v.lone, &v.de, &v.dp, &v.r1, &v.r2})
            f->fill(0.0f);
}

void Multigrid::still(int tile_i, int tile_j) {
    int size = grid::TileSet::size;
    for (std::size_t l = 0; l < levels_.size() && size >= 2; ++l, size /= 2) { // coarser levels are made of whole rows
        Level& v = levels_[l];
        for (auto* f : {&v.cx, &v.cy, &v.diagonal, &v.stiffness, &v.wet, &v.lone, &v.de, &v.dp, &v.r1, &v.r2})
            for (int j = tile_j * size; j < (tile_j + 1) * size; ++j)
                for (int parity = 0; parity < 2; ++parity)
                    std::fill_n(f->part(parity, j) + tile_i * size / 2, size / 2, 0.0f);
    }
}

float* Multigrid::buffer(std::size_t floats) {
    std::vector<float>& b = row_buffer_[omp_get_thread_num()];
    if (b.size() < floats)
        b.resize(floats);
    return b.data();
}

void Multigrid::take(int j, const FineRow& r, int begin, int end) {
    Level& v = levels_.front();
    part_row(r.cx, v.cx.even(j), v.cx.odd(j), begin, end);
    part_row(r.cy, v.cy.even(j), v.cy.odd(j), begin, end);
    part_row(r.diagonal, v.diagonal.even(j), v.diagonal.odd(j), begin, end);
    part_row(r.r1, v.r1.even(j), v.r1.odd(j), begin, end);
}

void Multigrid::pressure_row(int j, float* dp, int begin, int end) {
    Level& v = levels_.front();
    join_row(v.dp.even(j), v.dp.odd(j), dp, begin, end);
}

void Multigrid::depth_row(int j, float* de, int begin, int end) {
    Level& v = levels_.front();
    join_row(v.de.even(j), v.de.odd(j), de, begin, end);
}

void Multigrid::guess_row(int j, float factor, const float* answered, const float* left, int begin, int end) {
    Level& v = levels_.front();
    float *even = v.de.even(j), *odd = v.de.odd(j);
    if (factor == 0) { // what a failed solve has left there may be no number
        std::fill(even + begin / 2, even + end / 2, 0.0f);
        std::fill(odd + begin / 2, odd + end / 2, 0.0f);
    }
#pragma omp simd
    for (int k = begin / 2; k < end / 2; ++k) {
        even[k] = factor * (even[k] + answered[2 * k]) - left[2 * k];
        odd[k] = factor * (odd[k] + answered[2 * k + 1]) - left[2 * k + 1];
    }
}

void Multigrid::guess_pressures() { find_pressures(levels_.front()); }

/// Faces, stiffness and wet cells of a row of level l from the level above it.
void Multigrid::coarsen_row(int l, int j, int begin, int end) {
    Level &f = levels_[l - 1], &c = levels_[l];
    const int a = 2 * j, b = a + 1;
    float *x = buffer(2 * c.nx + buffer_slack), *y = x + c.nx;
    const auto keep = [&](const float* row, PartedField& to) { part_row(row, to.even(j), to.odd(j), begin, end); };
    coarse_faces_row(parts(f.cx, a), parts(f.cx, b), parts(f.cy, b), x, y, begin, end);
    keep(x, c.cx), keep(y, c.cy);
    mean_row(parts(f.wet, a), parts(f.wet, b), x, 0, begin, end);
    keep(x, c.wet);
    if (l == 1) { // the finest level has its capillarity and its contact lines in the diagonal; every level counts its own
        lone_faces_row(parts(f.wet, a - 1), parts(f.wet, a), parts(f.wet, b), parts(f.wet, b + 1), x, begin, end);
        mean_row(parts(f.diagonal, a), parts(f.diagonal, b), y, 4 * f.G, begin, end);
        without_lines_row(x, c.G, y, begin, end);
    } else {
        mean_row(parts(f.lone, a), parts(f.lone, b), x, 0, begin, end);
        mean_row(parts(f.stiffness, a), parts(f.stiffness, b), y, 0, begin, end);
    }
    keep(y, c.stiffness);
    keep(x, c.lone);
}

void Multigrid::coarsen() {
    if (row_buffer_.size() < static_cast<std::size_t>(omp_get_max_threads()))
        row_buffer_.resize(omp_get_max_threads());
    Level& fine = levels_.front();
    each_row(fine, [&](int j, int begin, int end) {
        open_row(parts(fine.cx, j), parts(fine.cy, j), parts(fine.cy, j - 1), fine.wet.even(j), fine.wet.odd(j),
                 begin / 2, end / 2);
    });
    for (int l = 1; l < static_cast<int>(levels_.size()); ++l)
        each_row(levels_[l], [&](int j, int begin, int end) { coarsen_row(l, j, begin, end); });
    // `lone` of a level is the mean over blocks of four below the first, so that its sum is 4^(l-1) times it.
    for (std::size_t l = 1; l < levels_.size(); ++l) {
        Level& c = levels_[l];
        const float per_lone = 2.0f * static_cast<float>(1L << (2 * (l - 1))) / static_cast<float>(1 << l);
        each_row(c, [&](int j, int begin, int end) {
            for (int parity = 0; parity < 2; ++parity) {
                const float* other = c.wet.part(1 - parity, j);
                coarse_diagonal_row({.wet = c.wet.part(parity, j),
                                     .wet_w = parity ? other : other - 1,
                                     .wet_e = parity ? other + 1 : other,
                                     .wet_n = c.wet.part(parity, j - 1),
                                     .wet_s = c.wet.part(parity, j + 1),
                                     .lone = c.lone.part(parity, j),
                                     .stiffness = c.stiffness.part(parity, j),
                                     .diagonal = c.diagonal.part(parity, j),
                                     .G = c.G,
                                     .per_lone = per_lone},
                                    begin / 2, half(end, parity));
            }
        });
    }
}

} // namespace tidemark::water
