/// A sheet whose left half is wet, under a layer of still air: a straight wet edge down its middle.
#pragma once
#include "air/sideways.h"

namespace tidemark::scene {

struct HalfWet {
    sheet::SheetState sheet;
    air::SidewaysVapour vapour;

    HalfWet(double width_m, double height_m, double cell_m, double layer_m)
        : sheet(sheet::SheetState::make(width_m, height_m, cell_m, {}, {}, sheet::BoardKind::sealed, {}, 1)) {
        for (int j = 0; j < sheet.geometry.ny; ++j)
            for (int i = 0; i < sheet.geometry.nx / 2; ++i)
                sheet.film_m(i, j) = 1e-4f;
        sheet.wake();
        air::prepare(vapour, sheet.geometry, layer_m);
        air::update(vapour, sheet, 1.0);
    }
    /// Drying of the k-th cell from the edge in the middle row, over that far away.
    double factor(int k) const { return vapour.factor(sheet.geometry.nx / 2 - 1 - k, sheet.geometry.ny / 2); }
};

} // namespace tidemark::scene
