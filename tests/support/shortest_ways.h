/// The shortest ways of a hand inside a mask, found the slow way.
#pragma once
#include <cmath>
#include <cstdlib>

#include "grid/field.h"
#include "grid/geodesic.h"

namespace tidemark::scene {

/// The steps of grid/geodesic.h, relaxed until nothing gets shorter; grid::Geodesic::unreached where no way leads.
inline grid::Field<float> shortest_ways(const grid::Field<float>& cover, grid::Cell from) {
    grid::Field<float> way(cover.nx(), cover.ny(), grid::Geodesic::unreached);
    way(from.i, from.j) = 0;
    const auto free = [&](int i, int j) { return i >= 0 && j >= 0 && i < cover.nx() && j < cover.ny() && cover(i, j) > 0; };
    for (bool shorter = true; shorter;) {
        shorter = false;
        for (int j = 0; j < cover.ny(); ++j)
            for (int i = 0; i < cover.nx(); ++i)
                for (int dj = -2; dj <= 2; ++dj)
                    for (int di = -2; di <= 2; ++di) {
                        const int far_out = std::abs(di) + std::abs(dj);
                        if (far_out == 0 || far_out > 3 || (far_out == 2 && (di == 0 || dj == 0)) || !free(i, j) ||
                            !free(i - di, j - dj) || way(i - di, j - dj) == grid::Geodesic::unreached ||
                            (far_out == 3 && !free(i - di + di / 2, j - dj + dj / 2)))
                            continue;
                        const float next = way(i - di, j - dj) + std::sqrt(static_cast<float>(di * di + dj * dj));
                        if (next < way(i, j) - 1e-4f)
                            way(i, j) = next, shorter = true;
                    }
    }
    return way;
}

} // namespace tidemark::scene
