/// Rows of a level of the multigrid. Private to the room.
#pragma once
#include "grid/rows.h"
#include "water/multigrid.h"
#include "water/transfer_rows.h"

namespace tidemark::water {

constexpr int buffer_slack = 16; ///< room for the ghosts of a row, and rows start on cache lines

/// The cells of one parity of row j.
inline PartRow part_of(Level& v, int j, int parity) {
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
inline int half(int i, int parity) { return parity ? i / 2 : (i + 1) / 2; }

inline Parts parts(PartedField& f, int j) { return {f.even(j), f.odd(j)}; }

template <class F> void each_row(Level& v, F&& f) {
    grid::for_rows(v.ny, v.cells, [&](int j) {
        for (int k = v.first[j]; k < v.first[j + 1]; ++k)
            f(j, v.spans[k].begin, v.spans[k].end);
    });
}

/// f(row j, parity, begin, end) for what is awake of every row; begin and end count columns of the part.
template <class F> void each_part(Level& v, F&& f) {
    each_row(v, [&](int j, int begin, int end) {
        for (int parity = 0; parity < 2; ++parity)
            f(j, parity, begin / 2, half(end, parity));
    });
}

void find_pressures(Level&); ///< dp of the level from its de

} // namespace tidemark::water
