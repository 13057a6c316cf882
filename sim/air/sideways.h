/// Vapour over the sheet spreads sideways, so edges and small marks dry faster than the middle of a wide wash.
///
/// Over an endless wash vapour leaves through a layer of thickness d = D Δc / E (plate.h). Three parts, none a knob:
///
///  1. excess v, the share of an endless wash's vapour that hangs over a place, on a coarse grid with air all round:
///         ∇²v - v/d² + s/d² = 0,   s the wet share.   Edge of a half-plane 1/2, inside it v_h = 1 - exp(-x/d)/2
///  2. edge factor at distance x from a straight wet edge, the flux through a layer of thickness d over a half-plane,
///         e = 1/√(1 - exp(-πx/d)),  averaged over the cell with
///         ∫₀ˣ = (2d/π)(πx/2d + ln(1 + √(1 - exp(-πx/d)))),   0.44 d of extra width in all
///  3. shape: where less vapour hangs than over a half-plane (v < v_h: small marks, outward corners)
///         factor = e (v_h/v)^¼      the one power for which a mark much smaller than d evaporates as 1/R, as
///                                   Weber's disc does (v ~ R², e ~ R^-½)
///     where more hangs (gaps, inward corners)
///         factor = 1 + (e - 1)(1 - v)/(1 - v_h)     a narrow gap adds about its own width
///     A straight edge gives exactly e. Damp and dry cells beside a wash: factor = 1 - v, they dry in its moist air.
///
/// `wet` is film, or a front half whose water activity is at least 0.9.
/// Range    layers of 0.1 mm to 1 m, cells of 0.01 to 100 mm, else refused (grid/within.h). Edges are taken as straight
///          and alone within a layer's width; marks smaller than 0.1 d were not compared.
/// Sources  screened field: text-book; half-plane: conformal map of a strip, computed; disc: Weber (1873).
///          The product is within 6 % of the exact disc from R = 0.1 d to 4 d: tests/published/air_sideways.cpp.
#pragma once
#include "grid/field.h"
#include "sheet/sheet_state.h"

#include <concepts>
#include <cstdint>
#include <vector>

namespace tidemark::air {

using grid::Field;

struct SidewaysVapour {
    double layer_m = 0;      ///< d
    int block = 0;           ///< sheet cells along a coarse cell; divides a tile
    int margin = 0;          ///< coarse cells of bare surround on each side
    Field<float> share;      ///< coarse: wet share s
    Field<float> excess;     ///< coarse: v; kept as the start of the next solve
    Field<float> factor;     ///< cell: on the evaporation of an endless wash; 1 until the first update
    Field<std::uint8_t> wet; ///< cell: as seen at the last update
    std::int64_t wet_cells = 0;
    Field<std::int32_t> across2;     ///< cell: square of the distance to dry along the row, in cells
    Field<std::int32_t> least2;      ///< row of a tile: the least of its across2
    int reach = 0;                   ///< cells to which distances are measured
    std::vector<float> edge, inside; ///< e and v_h by distance, 8 entries a cell
    std::vector<float> row_change;
    int sweeps = 0; ///< that the last solve took
};

/// What is kept between updates (grid/archive.h); all else is scratch of an update, or a size.
template <class A, class Self>
    requires std::same_as<std::remove_const_t<Self>, SidewaysVapour>
void archive_of(A& a, Self& self) {
    auto& [layer_m, block, margin, share, excess, factor, wet, wet_cells, across2, least2, reach, edge, inside, row_change,
           sweeps] = self;
    a(layer_m, block, margin, excess, factor, wet, wet_cells, reach, edge, inside);
    if constexpr (A::reads) {
        const int px = factor.nx(), py = factor.ny();
        a.require(wet.nx() == px && wet.ny() == py && factor.empty() == excess.empty());
        if (factor.empty()) return;
        a.require(block >= 1 && grid::TileSet::size % block == 0 && margin >= 2 && margin <= excess.nx() && reach >= 2 &&
                  reach <= (1 << 20) && edge.size() == 8u * reach + 1 && inside.size() == edge.size() &&
                  excess.nx() == px / block + 2 * margin && excess.ny() == py / block + 2 * margin);
        share.resize(excess.nx(), excess.ny());
        across2.resize(px, py), least2.resize(px / grid::TileSet::size, py);
    }
}

/// Sizes everything for this sheet and layer; factor becomes 1.
void prepare(SidewaysVapour&, const sheet::Geometry&, double layer_m);

/// Remakes v and the factors from the sheet's wet cells. `wet_front_kg_m2`: a front half this moist counts as wet.
void update(SidewaysVapour&, const sheet::SheetState&, double wet_front_kg_m2);

/// Cells whose wetness differs from the last update, as a share of those wet now or then; 0 ... 1.
double changed_share(const SidewaysVapour&, const sheet::SheetState&, double wet_front_kg_m2);

/// Solves ∇²v - v/d² + s/d² = 0, v = 0 outside the grid, by red-black over-relaxation from the v given, until no cell
/// moves by more than `tolerance` (of v, 0 ... 1), in 2000 sweeps at most. Returns sweeps. The result does not depend on
/// the number of threads. Cells of 0.01 mm and layers of 0.1 mm, both to 10 m, else refused.
int solve_screened(Field<float>& v,
                   const Field<float>& s,
                   double cell_m,
                   double layer_m,
                   float tolerance,
                   std::vector<float>& row_change);

/// ∫₀ˣ e dx, in m; x from 0 on, a layer above 0.
double edge_integral_m(double x_m, double layer_m);

} // namespace tidemark::air
