#include "water/minimal_residual.h"

#include "grid/largest.h"
#include "water/level_detail.h"
#include "water/minimal_residual_rows.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>

namespace tidemark::water {
namespace {

constexpr double least_gain = 0.02; // of the sum of squares

/// Sum over the same of f, in a fixed order.
template <class F> double sum_parts(Level& v, F&& f) {
    return grid::sum_rows(v.ny, v.cells, [&](int j) {
        double sum = 0;
        for (int k = v.first[j]; k < v.first[j + 1]; ++k)
            for (int parity = 0; parity < 2; ++parity)
                sum += f(j, parity, v.spans[k].begin / 2, half(v.spans[k].end, parity));
        return sum;
    });
}

int limit_of(const Level& v) {
    const bool many = static_cast<long>(v.nx) * v.ny >= MinimalResidual::many_cells;
    return many ? MinimalResidual::most_of_many : MinimalResidual::most;
}

/// r1 less what the system makes of (de, dp), into `out`.
void find_residual(Level& v, PartedField& out) {
    each_part(v, [&](int j, int parity, int begin, int end) {
        left_of_row(part_of(v, j, parity), out.part(parity, j), begin, end);
    });
}

} // namespace

void MinimalResidual::start(Level& v) {
    solution_.resize(v.nx, v.ny), left_.resize(v.nx, v.ny);
    taken_ = 0;
    find_pressures(v);
    each_part(v, [&](int j, int parity, int begin, int end) {
        std::copy(v.de.part(parity, j) + begin, v.de.part(parity, j) + end, solution_.part(parity, j) + begin);
    });
    find_residual(v, left_);
    ask(v, left_);
}

/// What the next cycle is to answer.
void MinimalResidual::ask(Level& v, PartedField& what) {
    each_part(v, [&](int j, int parity, int begin, int end) {
        std::copy(what.part(parity, j) + begin, what.part(parity, j) + end, v.r1.part(parity, j) + begin);
    });
}

MinimalResidual::Direction& MinimalResidual::next(const Level& v) {
    const std::size_t slot = taken_ % limit_of(v);
    if (slot >= kept_.size())
        kept_.emplace_back();
    ++taken_;
    Direction& d = kept_[slot];
    d.de.resize(v.nx, v.ny), d.image.resize(v.nx, v.ny);
    return d;
}

/// How much of each of the kept directions' images lies in a new one.
std::array<double, MinimalResidual::most> MinimalResidual::shares_of(Level& v, Direction& made, int others) {
    std::array<double, most> share{};
    for (int s = 0; s < others; ++s) {
        Direction& d = kept_[s];
        if (&d != &made && d.norm2 > 0)
            share[s] = sum_parts(v, [&](int j, int parity, int begin, int end) {
                           return dot_row(made.image.part(parity, j), d.image.part(parity, j), begin, end);
                       }) / d.norm2;
    }
    return share;
}

double MinimalResidual::take(Level& v) {
    const int others = std::min(taken_, limit_of(v));
    Direction& made = next(v);
    find_pressures(v);
    each_part(v, [&](int j, int parity, int begin, int end) {
        image_row(part_of(v, j, parity), made.image.part(parity, j), begin, end);
        std::copy(v.de.part(parity, j) + begin, v.de.part(parity, j) + end, made.de.part(parity, j) + begin);
    });
    const auto share = shares_of(v, made, others);
    for (int s = 0; s < others; ++s)
        if (share[s] != 0)
            each_part(v, [&](int j, int parity, int begin, int end) {
                const float less = static_cast<float>(-share[s]);
                add_row(made.image.part(parity, j), kept_[s].image.part(parity, j), less, begin, end);
                add_row(made.de.part(parity, j), kept_[s].de.part(parity, j), less, begin, end);
            });
    made.norm2 = sum_parts(v, [&](int j, int parity, int begin, int end) {
        return dot_row(made.image.part(parity, j), made.image.part(parity, j), begin, end);
    });
    if (made.norm2 == 0)
        return -1;
    if (std::isnan(made.norm2))
        return made.norm2;
    const double along = sum_parts(v, [&](int j, int parity, int begin, int end) {
        return dot_row(made.image.part(parity, j), left_.part(parity, j), begin, end);
    });
    const double all = sum_parts(v, [&](int j, int parity, int begin, int end) {
        return dot_row(left_.part(parity, j), left_.part(parity, j), begin, end);
    });
    const float step = static_cast<float>(along / made.norm2);
    std::int32_t worst = 0;
#pragma omp parallel for schedule(static, grid::rows_in_turn(v.ny)) reduction(max : worst) if (v.cells > grid::parallel_from_cells)
    for (int j = 0; j < v.ny; ++j)
        for (int k = v.first[j]; k < v.first[j + 1]; ++k)
            for (int parity = 0; parity < 2; ++parity) {
                const int begin = v.spans[k].begin / 2, end = half(v.spans[k].end, parity);
                float* left = left_.part(parity, j);
                add_row(solution_.part(parity, j), made.de.part(parity, j), step, begin, end);
                add_row(left, made.image.part(parity, j), -step, begin, end);
                constexpr int tile = grid::TileSet::size / 2;
                for (int i = begin; i < end; i += tile)
                    if (!v.apart || !v.apart->awake(i / tile, j / grid::TileSet::size))
                        worst = std::max(worst, grid::ordered_bits(grid::largest_magnitude(left, i, std::min(i + tile, end))));
            }
    // Where a direction gains nothing the residual would ask for the same one again: its image asks for another.
    ask(v, along * along < least_gain * made.norm2 * all ? made.image : left_);
    return std::bit_cast<float>(worst);
}

void MinimalResidual::finish(Level& v) {
    each_part(v, [&](int j, int parity, int begin, int end) {
        std::copy(solution_.part(parity, j) + begin, solution_.part(parity, j) + end, v.de.part(parity, j) + begin);
    });
    find_pressures(v);
}

} // namespace tidemark::water
