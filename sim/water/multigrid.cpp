#include "water/multigrid.h"

#include "grid/rows.h"
#include "water/multigrid_rows.h"
#include "water/transfer_rows.h"

#include <algorithm>
#include <cstring>
#include <limits>
#include <omp.h>

namespace tidemark::water {
namespace {

constexpr int coarsest_cells = 12; // along the shorter side
constexpr int coarsest_passes = 40;

LevelRow row_of(Level& v, int j) {
    return {.de = v.de.row(j),
            .dp = v.dp.row(j),
            .de_up = v.de.row(j - 1),
            .de_down = v.de.row(j + 1),
            .dp_up = v.dp.row(j - 1),
            .dp_down = v.dp.row(j + 1),
            .cx = v.cx.row(j),
            .cy = v.cy.row(j),
            .cy_up = v.cy.row(j - 1),
            .ax = v.ax.row(j),
            .ay = v.ay.row(j),
            .ay_up = v.ay.row(j - 1),
            .diagonal = v.diagonal.row(j),
            .wet = v.wet.row(j),
            .r1 = v.r1.row(j),
            .r2 = v.r2.row(j),
            .G = v.G};
}

template <class F> void each_row(Level& v, F&& f) {
    grid::for_rows(v.ny, v.cells, [&](int j) {
        for (int k = v.first[j]; k < v.first[j + 1]; ++k)
            f(j, v.spans[k].begin, v.spans[k].end);
    });
}

} // namespace

Multigrid::Multigrid(int nx, int ny, double G_fine) {
    int block = grid::TileSet::size;
    double G = G_fine;
    for (;;) {
        Level& v = levels_.emplace_back();
        v.nx = nx, v.ny = ny, v.block = std::max(4, block), v.G = static_cast<float>(G);
        for (auto* f :
             {&v.cx, &v.cy, &v.ax, &v.ay, &v.diagonal, &v.stiffness, &v.wet, &v.lone, &v.de, &v.dp, &v.r1, &v.r2})
            f->resize(nx, ny);
        if (nx % 2 || ny % 2 || nx < coarsest_cells || ny < coarsest_cells)
            break;
        nx /= 2, ny /= 2, G /= 4, block /= 2;
    }
    const int n = levels_.front().nx + 64;
    for (int k = 0; k < 2; ++k) {
        parity_[k].resize(n);
        for (int i = 0; i < n; ++i)
            parity_[k][i] = (i + k) % 2 ? 0 : -1;
    }
    set_spans(grid::TileSet(levels_.front().nx, levels_.front().ny, true));
}

void Multigrid::set_spans(const grid::TileSet& tiles) {
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
    for (Level& v : levels_)
        for (auto* f : {&v.cx, &v.cy, &v.ax, &v.ay, &v.de, &v.dp, &v.r1, &v.r2, &v.wet, &v.lone})
            f->fill(0.0f);
}

void Multigrid::coarsen(bool tilted) {
    Level& fine = levels_.front();
    each_row(fine, [&](int j, int begin, int end) {
        open_row(fine.cx.row(j), fine.cy.row(j), fine.cy.row(j - 1), fine.wet.row(j), begin, end);
    });
    for (std::size_t l = 1; l < levels_.size(); ++l) {
        Level &f = levels_[l - 1], &c = levels_[l];
        const Field<float>& stiffness = l == 1 ? f.diagonal : f.stiffness; // the finest has its capillarity in it
        const float less = l == 1 ? 4 * f.G : 0.0f;
        each_row(c, [&](int j, int begin, int end) {
            const int a = 2 * j, b = a + 1;
            coarse_faces_row({f.cx.row(a), f.cx.row(b), f.cy.row(b), c.cx.row(j), c.cy.row(j), 0.125f}, begin, end);
            if (tilted)
                coarse_faces_row({f.ax.row(a), f.ax.row(b), f.ay.row(b), c.ax.row(j), c.ay.row(j), 0.25f}, begin,
                                 end);
            mean_row(stiffness.row(a), stiffness.row(b), c.stiffness.row(j), less, begin, end);
            mean_row(f.wet.row(a), f.wet.row(b), c.wet.row(j), 0, begin, end);
            if (l == 1) {
                lone_faces_row(f.wet.row(a - 1), f.wet.row(a), f.wet.row(b), f.wet.row(b + 1), c.lone.row(j), begin,
                               end);
            } else {
                mean_row(f.lone.row(a), f.lone.row(b), c.lone.row(j), 0, begin, end);
            }
        });
    }
    // `lone` of a level is the mean over blocks of four below the first, so that its sum is 4^(l-1) times it.
    for (std::size_t l = 1; l < levels_.size(); ++l) {
        Level& c = levels_[l];
        const float per_lone = 2.0f * static_cast<float>(1L << (2 * (l - 1))) / static_cast<float>((1 << l) + 1);
        each_row(c, [&](int j, int begin, int end) {
            coarse_diagonal_row({c.wet.row(j), c.wet.row(j - 1), c.wet.row(j + 1), c.lone.row(j), c.stiffness.row(j),
                                 c.diagonal.row(j), c.G, per_lone},
                                begin, end);
        });
    }
}

/// Both colours in one sweep: black follows one row behind red inside a block of rows; the first and last black rows
/// of each block wait for the neighbouring blocks. The order is fixed by the blocks, not by the threads.
void Multigrid::relax(int l, bool tilted, bool from_zero) {
    Level& v = levels_[l];
    const bool finest = l == 0;
    const int blocks = (v.ny + v.block - 1) / v.block;
    const auto red = [&](int j) {
        const LevelRow r = row_of(v, j);
        const std::int32_t* keep = parity_[j & 1].data();
        for (int k = v.first[j]; k < v.first[j + 1]; ++k)
            from_zero ? relax_row_from_zero(r, keep, v.spans[k].begin, v.spans[k].end, tilted, finest)
                      : relax_row(r, keep, v.spans[k].begin, v.spans[k].end, tilted, finest);
    };
    const auto black = [&](int j) {
        const LevelRow r = row_of(v, j);
        const std::int32_t* keep = parity_[(j + 1) & 1].data();
        for (int k = v.first[j]; k < v.first[j + 1]; ++k)
            relax_row(r, keep, v.spans[k].begin, v.spans[k].end, tilted, finest);
    };
#pragma omp parallel if (v.cells > grid::parallel_from_cells)
    {
#pragma omp for schedule(static)
        for (int b = 0; b < blocks; ++b) {
            const int begin = b * v.block, end = std::min(v.ny, begin + v.block);
            red(begin);
            if (begin + 1 < end)
                red(begin + 1);
            for (int j = begin + 2; j < end; ++j)
                red(j), black(j - 1);
        }
#pragma omp for schedule(static)
        for (int b = 0; b < blocks; ++b) {
            const int begin = b * v.block, end = std::min(v.ny, begin + v.block);
            black(begin);
            if (end - 1 > begin)
                black(end - 1);
        }
    }
}

double Multigrid::restrict_to(int l, bool tilted) {
    Level &f = levels_[l], &c = levels_[l + 1];
    const std::size_t width = f.nx + 16, threads = omp_get_max_threads();
    if (row_buffer_.size() < threads)
        row_buffer_.resize(threads);
    float worst = 0;
#pragma omp parallel for schedule(static) reduction(max : worst) if (f.cells > grid::parallel_from_cells)
    for (int j = 0; j < c.ny; ++j) {
        std::vector<float>& buffer = row_buffer_[omp_get_thread_num()];
        if (buffer.size() < 4 * width)
            buffer.resize(4 * width);
        float* out1[2] = {buffer.data(), buffer.data() + width};
        float* out2[2] = {buffer.data() + 2 * width, buffer.data() + 3 * width};
        for (int k = f.first[2 * j]; k < f.first[2 * j + 1]; ++k) {
            const int begin = f.spans[k].begin, end = f.spans[k].end;
            for (int s = 0; s < 2; ++s)
                worst =
                    std::max(worst, residual_row(row_of(f, 2 * j + s), out1[s], out2[s], begin, end, tilted, l == 0));
            restrict_row({out1[0], out1[1], out2[0], out2[1], c.wet.row(j), c.r1.row(j), c.r2.row(j)}, begin / 2,
                         end / 2);
        }
    }
    return worst;
}

void Multigrid::prolong(int l) {
    Level &f = levels_[l], &c = levels_[l + 1];
    for (auto* field : {&c.de, &c.dp}) { // mirrored ghosts: the border is closed
        for (int j = 0; j < c.ny; ++j) {
            float* row = field->row(j);
            row[-1] = row[0], row[c.nx] = row[c.nx - 1];
        }
        std::memcpy(field->row(-1) - 1, field->row(0) - 1, sizeof(float) * (c.nx + 2));
        std::memcpy(field->row(c.ny) - 1, field->row(c.ny - 1) - 1, sizeof(float) * (c.nx + 2));
    }
    grid::for_rows(c.ny, f.cells, [&](int J) {
        for (int k = f.first[2 * J]; k < f.first[2 * J + 1]; ++k)
            for (int s = 0; s < 2; ++s) {
                const int j = 2 * J + s, other = s ? J + 1 : J - 1;
                prolong_row({c.de.row(J), c.de.row(other), c.dp.row(J), c.dp.row(other), f.cx.row(j), f.cy.row(j),
                             f.cy.row(j - 1), f.de.row(j), f.dp.row(j)},
                            f.spans[k].begin / 2, f.spans[k].end / 2);
            }
    });
    for (auto* field : {&c.de, &c.dp}) { // beyond the sheet is dry again
        for (int j = 0; j < c.ny; ++j)
            field->row(j)[-1] = field->row(j)[c.nx] = 0;
        std::fill_n(field->row(-1) - 1, c.nx + 2, 0.0f);
        std::fill_n(field->row(c.ny) - 1, c.nx + 2, 0.0f);
    }
}

/// Of the finest level, when it is the only one.
double Multigrid::largest_residual(bool tilted) {
    Level& f = levels_.front();
    std::vector<float> out(2 * (f.nx + 16));
    float worst = 0;
    for (int j = 0; j < f.ny; ++j)
        for (int k = f.first[j]; k < f.first[j + 1]; ++k)
            worst = std::max(worst, residual_row(row_of(f, j), out.data(), out.data() + f.nx + 16, f.spans[k].begin,
                                                 f.spans[k].end, tilted, true));
    return worst;
}

double Multigrid::cycle(int l, bool tilted, bool from_zero) {
    if (l + 1 == static_cast<int>(levels_.size())) {
        for (int k = 0; k < coarsest_passes; ++k)
            relax(l, tilted, from_zero && k == 0);
        return l == 0 ? largest_residual(tilted) : 0;
    }
    relax(l, tilted, from_zero);
    const double worst = restrict_to(l, tilted);
    cycle(l + 1, tilted, true);
    prolong(l);
    relax(l, tilted, false);
    return worst;
}

double Multigrid::solve(double tolerance, int cycles_max, bool tilted, bool warm, int& cycles) {
    double residual = std::numeric_limits<double>::infinity();
    for (cycles = 0; cycles < cycles_max;) {
        const double before = residual;
        residual = cycle(0, tilted, cycles == 0 && !warm);
        ++cycles;
        if (residual < tolerance)
            break;
        if (cycles >= 5 && !(residual < 0.9 * before))
            break; // it grows, or stands still
    }
    return residual;
}

} // namespace tidemark::water
