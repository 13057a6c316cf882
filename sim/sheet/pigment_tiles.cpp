// Which tiles hold pigment that water may move: all that is not in an earlier pass.
#include "grid/largest.h"
#include "grid/rows.h"
#include "sheet/sheet_state.h"

#include <algorithm>

namespace tidemark::sheet {
namespace {

constexpr int size = grid::TileSet::size;

bool any_in_tile(const PigmentState& p, int ti, int tj) {
    const int i = ti * size, n = std::min(size, p.bound.nx() - i);
    for (const Field<float>* f : {&p.bound, &p.afloat_lower, &p.afloat_upper, &p.loose, &p.inside})
        for (int j = tj * size; j < std::min((tj + 1) * size, f->ny()); ++j)
            if (grid::largest_magnitude(f->row(j), i, i + n) != 0)
                return true;
    return false;
}

} // namespace

void SheetState::track_pigment() {
    for (PigmentState& p : pigments)
        p.tiles = grid::TileSet(geometry.px, geometry.py, true);
    forget_empty_tiles();
}

void SheetState::expect_pigment(int i, int j) {
    for (PigmentState& p : pigments)
        if (p.tiles.tiles_x() > 0)
            p.tiles.wake_cell(i, j);
}

void SheetState::forget_empty_tiles() {
    if (pigments.empty())
        return;
    const int rows = pigments.front().tiles.tiles_y();
    grid::for_rows(static_cast<int>(pigments.size()) * rows, static_cast<long>(geometry.px) * geometry.py, [&](int n) {
        PigmentState& p = pigments[n / rows];
        const int tj = n % rows;
        for (int ti = 0; ti < p.tiles.tiles_x(); ++ti)
            if (p.tiles.awake(ti, tj) && !any_in_tile(p, ti, tj))
                p.tiles.set(ti, tj, false);
    });
}

} // namespace tidemark::sheet
