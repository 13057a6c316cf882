// Which tiles hold pigment that water may move: all that is not in an earlier pass.
#include "grid/rows.h"
#include "sheet/sheet_state.h"

#include <algorithm>

namespace tidemark::sheet {
namespace {

constexpr int size = grid::TileSet::size;

bool any_in_tile(const PigmentState& p, int ti, int tj) {
    for (const Field<float>* f : {&p.afloat_lower, &p.afloat_upper, &p.loose, &p.bound, &p.inside})
        for (int j = tj * size; j < std::min((tj + 1) * size, f->ny()); ++j) {
            const float* row = f->row(j);
            if (std::any_of(row + ti * size, row + std::min((ti + 1) * size, f->nx()), [](float m) { return m != 0; }))
                return true;
        }
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
    grid::for_rows(static_cast<int>(pigments.size()), static_cast<long>(geometry.px) * geometry.py, [&](int k) {
        PigmentState& p = pigments[k];
        for (int tj = 0; tj < p.tiles.tiles_y(); ++tj)
            for (int ti = 0; ti < p.tiles.tiles_x(); ++ti)
                if (p.tiles.awake(ti, tj) && !any_in_tile(p, ti, tj))
                    p.tiles.set(ti, tj, false);
    });
}

} // namespace tidemark::sheet
