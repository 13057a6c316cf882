#include "water/multigrid.h"

#include "grid/largest.h"
#include "grid/rows.h"
#include "water/transfer_rows.h"

#include <algorithm>
#include <limits>
#include <omp.h>

namespace tidemark::water {
namespace {

constexpr int coarsest_cells = 12; // along the shorter side
constexpr int coarsest_passes = 40;
constexpr double stubborn_share = 0.1; // of the largest residual: a cycle lessens the rest about tenfold
constexpr int stubborn_sweeps = 8;
constexpr int buffer_slack = 16; // room for the ghosts of a row, and rows start on cache lines

/// The cells of one parity of row j.
PartRow part_of(Level& v, int j, int parity) {
    // To an even column k = i/2 the odd ones at its sides are k-1 and k; to an odd one the even ones k and k+1.
    const int w = parity ? 0 : -1, e = parity ? 1 : 0, other = 1 - parity;
    return {.de = v.de.part(parity, j),
            .dp = v.dp.part(parity, j),
            .de_w = v.de.part(other, j) + w,
            .de_e = v.de.part(other, j) + e,
            .de_n = v.de.part(parity, j - 1),
            .de_s = v.de.part(parity, j + 1),
            .dp_w = v.dp.part(other, j) + w,
            .dp_e = v.dp.part(other, j) + e,
            .dp_n = v.dp.part(parity, j - 1),
            .dp_s = v.dp.part(parity, j + 1),
            .c_w = v.cx.part(other, j) + w,
            .c_e = v.cx.part(parity, j),
            .c_n = v.cy.part(parity, j - 1),
            .c_s = v.cy.part(parity, j),
            .diagonal = v.diagonal.part(parity, j),
            .wet = v.wet.part(parity, j),
            .r1 = v.r1.part(parity, j),
            .r2 = v.r2.part(parity, j),
            .G = v.G};
}

/// k of a part for columns up to `i`.
int half(int i, int parity) { return parity ? i / 2 : (i + 1) / 2; }

Parts parts(PartedField& f, int j) { return {f.even(j), f.odd(j)}; }

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
    stubborn_.clear();
    // What falls asleep must not leave its last increments to be read by its neighbours.
    if (!slept)
        return;
    for (Level& v : levels_)
        for (auto* f : {&v.cx, &v.cy, &v.de, &v.dp, &v.r1, &v.r2, &v.wet, &v.lone})
            f->fill(0.0f);
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

void Multigrid::scale(float factor) {
    Level& v = levels_.front();
    each_row(v, [&](int j, int begin, int end) {
        for (int parity = 0; parity < 2; ++parity)
            for (float* x : {v.de.part(parity, j), v.dp.part(parity, j)})
#pragma omp simd
                for (int k = begin / 2; k < half(end, parity); ++k)
                    x[k] *= factor;
    });
}

/// Faces, stiffness and wet cells of a row of level l from the level above it.
void Multigrid::coarsen_row(int l, int j, int begin, int end) {
    Level &f = levels_[l - 1], &c = levels_[l];
    const int a = 2 * j, b = a + 1;
    float *x = buffer(2 * c.nx + buffer_slack), *y = x + c.nx;
    const auto keep = [&](const float* row, PartedField& to) { part_row(row, to.even(j), to.odd(j), begin, end); };
    coarse_faces_row(parts(f.cx, a), parts(f.cx, b), parts(f.cy, b), x, y, begin, end);
    keep(x, c.cx), keep(y, c.cy);
    if (l == 1) { // the finest level has its capillarity in the diagonal
        mean_row(parts(f.diagonal, a), parts(f.diagonal, b), x, 4 * f.G, begin, end);
    } else {
        mean_row(parts(f.stiffness, a), parts(f.stiffness, b), x, 0, begin, end);
    }
    keep(x, c.stiffness);
    mean_row(parts(f.wet, a), parts(f.wet, b), x, 0, begin, end);
    keep(x, c.wet);
    if (l == 1) {
        lone_faces_row(parts(f.wet, a - 1), parts(f.wet, a), parts(f.wet, b), parts(f.wet, b + 1), x, begin, end);
    } else {
        mean_row(parts(f.lone, a), parts(f.lone, b), x, 0, begin, end);
    }
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
        const float per_lone = 2.0f * static_cast<float>(1L << (2 * (l - 1))) / static_cast<float>((1 << l) + 1);
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

/// Both colours in one sweep: black follows one row behind red inside a block of rows; the first and last black rows
/// of each block wait for the neighbouring blocks. The order is fixed by the blocks, not by the threads.
void Multigrid::relax(int l, bool from_zero) {
    Level& v = levels_[l];
    const bool finest = l == 0;
    const int blocks = (v.ny + v.block - 1) / v.block;
    const auto red = [&](int j) {
        const int parity = j & 1;
        const PartRow r = part_of(v, j, parity);
        for (int k = v.first[j]; k < v.first[j + 1]; ++k) {
            const int begin = v.spans[k].begin, end = v.spans[k].end;
            if (!from_zero) {
                relax_row(r, begin / 2, half(end, parity), finest);
                continue;
            }
            relax_row_from_zero(r, begin / 2, half(end, parity), finest);
            for (float* other : {v.de.part(1 - parity, j), v.dp.part(1 - parity, j)})
                std::fill(other + begin / 2, other + half(end, 1 - parity), 0.0f);
        }
    };
    const auto black = [&](int j) {
        const int parity = (j + 1) & 1;
        const PartRow r = part_of(v, j, parity);
        for (int k = v.first[j]; k < v.first[j + 1]; ++k)
            relax_row(r, v.spans[k].begin / 2, half(v.spans[k].end, parity), finest);
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

double Multigrid::restrict_to(int l) {
    Level &f = levels_[l], &c = levels_[l + 1];
    constexpr int rows = Stubborn::patch / 2; // of the coarse level, shared out together
    const int blocks = (c.ny + rows - 1) / rows;
    float worst = 0;
#pragma omp parallel for schedule(static) reduction(max : worst) if (f.cells > grid::parallel_from_cells)
    for (int block = 0; block < blocks; ++block)
        worst = std::max(worst, restrict_block(l, block));
    return worst;
}

/// Returns the largest |r1| of the finest level, 0 on the others.
float Multigrid::restrict_block(int l, int block) {
    Level &f = levels_[l], &c = levels_[l + 1];
    constexpr int rows = Stubborn::patch / 2;
    const int n = (c.nx + buffer_slack) / buffer_slack * buffer_slack;
    float* out = buffer(static_cast<std::size_t>(12) * n);
    const auto first = [&](int s, int parity) { return out + (2 * s + parity) * n; };
    const auto second = [&](int s, int parity) { return out + (4 + 2 * s + parity) * n; };
    float *wet = out + 8 * n, *r1 = out + 9 * n, *r2 = out + 10 * n, *largest = out + 11 * n; // of a pair of columns
    std::fill_n(largest, n, 0.0f);
    for (int j = block * rows; j < std::min(c.ny, (block + 1) * rows); ++j)
        for (int span = f.first[2 * j]; span < f.first[2 * j + 1]; ++span) {
            const int begin = f.spans[span].begin / 2, end = f.spans[span].end / 2;
            for (int s = 0; s < 2; ++s)
                for (int parity = 0; parity < 2; ++parity) {
                    residual_row(part_of(f, 2 * j + s, parity), first(s, parity), second(s, parity), begin, end, l == 0);
                    if (l == 0)
                        raise_largest(first(s, parity), largest, begin, end);
                }
            join_row(c.wet.even(j), c.wet.odd(j), wet, begin, end);
            restrict_row({first(0, 0), first(0, 1), first(1, 0), first(1, 1), second(0, 0), second(0, 1), second(1, 0),
                          second(1, 1), wet, r1, r2},
                         begin, end);
            part_row(r1, c.r1.even(j), c.r1.odd(j), begin, end);
            part_row(r2, c.r2.even(j), c.r2.odd(j), begin, end);
        }
    if (l > 0)
        return 0;
    float worst = 0;
    float* patches = stubborn_.row_worst(block);
    for (int x = 0; x < f.nx / Stubborn::patch; ++x) {
        patches[x] = grid::largest_magnitude(largest, x * rows, (x + 1) * rows);
        worst = std::max(worst, patches[x]);
    }
    return worst;
}

/// Sweeps over the parts that make no headway. They don't touch each other: their order is of no account.
void Multigrid::relax_stubborn(double worst) {
    Level& v = levels_.front();
    const auto& found = stubborn_.find(static_cast<float>(stubborn_share * worst));
    const int n = static_cast<int>(found.size());
#pragma omp parallel for schedule(dynamic) if (n > 1 && v.cells > grid::parallel_from_cells)
    for (int part = 0; part < n; ++part)
        for (int pass = 0; pass < 2 * stubborn_sweeps; ++pass)
            for (const Stubborn::RowSpan& r : found[part])
                relax_row(part_of(v, r.j, (r.j + pass) & 1), r.begin / 2, r.end / 2, true);
}

void Multigrid::prolong(int l) {
    Level &f = levels_[l], &c = levels_[l + 1];
    grid::for_rows(c.ny, f.cells, [&](int J) {
        const int n = (c.nx + 2 * buffer_slack) / buffer_slack * buffer_slack;
        float* rows = buffer(static_cast<std::size_t>(6) * n) + buffer_slack / 2;
        // In their natural order, mirrored beyond the border: it is closed.
        for (int d = 0; d < 3; ++d) {
            const int j = std::clamp(J + d - 1, 0, c.ny - 1);
            for (PartedField* from : {&c.de, &c.dp}) {
                float* row = rows + (from == &c.de ? d : 3 + d) * n;
                join_row(from->even(j), from->odd(j), row, 0, c.nx);
                row[-1] = row[0], row[c.nx] = row[c.nx - 1];
            }
        }
        for (int k = f.first[2 * J]; k < f.first[2 * J + 1]; ++k)
            for (int s = 0; s < 2; ++s) {
                const int j = 2 * J + s, far = s ? 2 : 0;
                prolong_row({.de_near = rows + n,
                             .de_far = rows + far * n,
                             .dp_near = rows + 4 * n,
                             .dp_far = rows + (3 + far) * n,
                             .cx = parts(f.cx, j),
                             .cy = parts(f.cy, j),
                             .cy_up = parts(f.cy, j - 1),
                             .de_even = f.de.even(j),
                             .de_odd = f.de.odd(j),
                             .dp_even = f.dp.even(j),
                             .dp_odd = f.dp.odd(j)},
                            f.spans[k].begin / 2, f.spans[k].end / 2);
            }
    });
}

/// Of the finest level, when it is the only one.
double Multigrid::largest_residual() {
    Level& f = levels_.front();
    std::vector<float> out(2 * (f.nx + buffer_slack));
    float worst = 0;
    for (int j = 0; j < f.ny; ++j)
        for (int parity = 0; parity < 2; ++parity)
            for (int span = f.first[j]; span < f.first[j + 1]; ++span) {
                const int begin = f.spans[span].begin / 2, end = half(f.spans[span].end, parity);
                residual_row(part_of(f, j, parity), out.data(), out.data() + f.nx + buffer_slack, begin, end, true);
                worst = std::max(worst, grid::largest_magnitude(out.data(), begin, end));
            }
    return worst;
}

double Multigrid::cycle(int l, bool from_zero) {
    if (l + 1 == static_cast<int>(levels_.size())) {
        for (int k = 0; k < coarsest_passes; ++k)
            relax(l, from_zero && k == 0);
        return l == 0 ? largest_residual() : 0;
    }
    relax(l, from_zero);
    const double worst = restrict_to(l);
    cycle(l + 1, true);
    prolong(l);
    relax(l, false);
    if (l == 0)
        relax_stubborn(worst);
    return worst;
}

double Multigrid::solve(double tolerance, int cycles_max, bool warm, int& cycles) {
    double residual = std::numeric_limits<double>::infinity();
    stubborn_.start();
    for (cycles = 0; cycles < cycles_max;) {
        const double before = residual;
        residual = cycle(0, cycles == 0 && !warm);
        ++cycles;
        if (residual < tolerance)
            break;
        if (cycles >= 5 && !(residual < 0.9 * before))
            break; // it grows, or stands still
    }
    return residual;
}

} // namespace tidemark::water
