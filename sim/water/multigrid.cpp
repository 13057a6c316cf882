// A cycle of the multigrid: relaxation, residuals down, corrections up.
#include "water/multigrid.h"

#include "grid/largest.h"
#include "grid/rows.h"
#include "water/level_detail.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>

namespace tidemark::water {
namespace {

constexpr int coarsest_passes = 40;
constexpr double stubborn_share = 0.1; // of the largest residual
constexpr int stubborn_sweeps = 8;
constexpr int plain_cycles = 3;
constexpr int sweeps_of_directions = 4; // small deep drops on dry paper: three times fewer cycles than with one
constexpr double slow = 0.5; // of the residual is left by a cycle

} // namespace

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
#pragma omp for schedule(static, 1)
        for (int b = 0; b < blocks; ++b) {
            const int begin = b * v.block, end = std::min(v.ny, begin + v.block);
            red(begin);
            if (begin + 1 < end)
                red(begin + 1);
            for (int j = begin + 2; j < end; ++j)
                red(j), black(j - 1);
        }
#pragma omp for schedule(static, 1)
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
    std::int32_t worst = 0; // as ordered bits: a NaN can't hide
#pragma omp parallel for schedule(static, 1) reduction(max : worst) if (f.cells > grid::parallel_from_cells)
    for (int block = 0; block < blocks; ++block)
        worst = std::max(worst, grid::ordered_bits(restrict_block(l, block)));
    return std::bit_cast<float>(worst);
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
    float* patches = stubborn_.row_worst(block);
    const int count = f.nx / Stubborn::patch;
    for (int x = 0; x < count; ++x)
        patches[x] = grid::largest_magnitude(largest, x * rows, (x + 1) * rows);
    if (f.apart)
        for (int x = 0; x < count; ++x)
            if (f.apart->awake(x * Stubborn::patch / grid::TileSet::size, block * Stubborn::patch / grid::TileSet::size))
                patches[x] = std::isnan(patches[x]) ? patches[x] : 0.0f;
    return grid::largest_magnitude(patches, 0, count);
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

void Multigrid::more_sweeps() {
    for (int k = 1; k < sweeps_; ++k)
        relax(0, false);
}

double Multigrid::cycle(int l, bool from_zero) {
    if (l + 1 == static_cast<int>(levels_.size())) {
        for (int k = 0; k < coarsest_passes; ++k)
            relax(l, from_zero && k == 0);
        return 0;
    }
    relax(l, from_zero);
    if (l == 0)
        more_sweeps();
    const double worst = restrict_to(l);
    cycle(l + 1, true);
    prolong(l);
    relax(l, false);
    if (l == 0)
        more_sweeps();
    if (l == 0)
        relax_stubborn(worst);
    return worst;
}

/// Cycles as directions, from where the plain ones have come to.
double Multigrid::go_on(double residual, double tolerance, int cycles_max, int& cycles) {
    Level& v = levels_.front();
    minimal_.start(v);
    sweeps_ = sweeps_of_directions;
    while (cycles < cycles_max && !(residual < tolerance)) {
        stubborn_.start(); // each cycle is from zero: nothing of the last one says where headway is made
        cycle(0, true);
        ++cycles;
        const double reached = minimal_.take(v);
        if (reached < 0)
            break; // no direction is left
        residual = reached;
        if (std::isnan(residual))
            break;
    }
    minimal_.finish(v);
    sweeps_ = 1;
    return residual;
}

double Multigrid::solve(double tolerance, int cycles_max, int& cycles) {
    double residual = std::numeric_limits<double>::infinity();
    stubborn_.start();
    for (cycles = 0; cycles < cycles_max;) {
        const double before = residual;
        residual = cycle(0, false);
        ++cycles;
        if (residual < tolerance)
            break;
        if (cycles >= plain_cycles && !(residual < slow * before))
            return go_on(residual, tolerance, cycles_max, cycles);
    }
    return residual;
}

} // namespace tidemark::water
