/// Everything the sheet is at one moment. The processes (water, air, fibre, pigment) meet only here.
///
/// Cells are square. `nx`, `ny` count the sheet's own cells; fields are padded to whole tiles of 32 × 32 with cells
/// that stay closed and empty, so that the film solver can halve the grid five times. x to the right, y down.
/// Masses are per area of the sheet's mean plane. State is float where the film needs speed, double where little
/// touches it; sums are double.
///
/// Range   make() refuses (grid/within.h) sheets beyond 0.01 mm to 10 m a side, cells beyond 0.01 to 100 mm or more than
///         100 million of them, and paper whose isotherm or relief is beyond materials/paper.h (relief.h). Film from 0
///         up, to depths where it is still thin (water/film.h).
#pragma once
#include <algorithm>
#include <cstdint>
#include <vector>

#include "grid/field.h"
#include "grid/tiles.h"
#include "materials/paper.h"
#include "materials/pigment.h"
#include "materials/room.h"

namespace tidemark::sheet {

using grid::Field;

enum class BoardKind { sealed, absorbent, open };

struct Geometry {
    int nx = 0, ny = 0;               ///< cells of the sheet
    int px = 0, py = 0;               ///< padded to multiples of grid::TileSet::size
    double cell_m = 0.5e-3;
    double cell_area_m2() const { return cell_m * cell_m; }
};

/// One pigment on the sheet, kg/m² each. Loose, bound and inside belong to the pass being painted.
struct PigmentState {
    materials::Pigment pigment;
    Field<float> afloat_lower;  ///< in the lower half of the film (runs at 0.625 of the film's flux)
    Field<float> afloat_upper;  ///< in the upper half (1.375)
    Field<float> loose;         ///< settled on the felt, liftable
    Field<float> bound;         ///< held by binder and fibre
    Field<float> inside;        ///< carried into the pores with the water that was drawn in
    /// Outside these tiles there is nothing of it but in earlier passes: loops pass them by. Without tiles it may be anywhere.
    grid::TileSet tiles;
    /// Whether any of it may be in columns [begin, end) of row j, earlier passes apart.
    bool may_be_in(int j, int begin, int end) const {
        if (tiles.tiles_x() == 0) return true;
        for (int t = begin / grid::TileSet::size; t * grid::TileSet::size < end; ++t)
            if (tiles.awake(t, j / grid::TileSet::size)) return true;
        return false;
    }
};

/// Earlier, dried passes: what a glaze lies over. One field a pigment, kg/m²; a cell with fewer passes holds 0.
struct Pass { std::vector<Field<float>> bound; };

/// Where the contact line stands, and whether a cell may take film in from its neighbours.
enum class Surface : std::uint8_t {
    dry = 0,    ///< no brush and no film has wetted it: closed to film until its fibres or the bead's depth open it
    wetted = 1, ///< the contact line has passed: water runs freely
    reserved = 2 ///< covered by resist
};

/// Cells around film in which tiles are awake: more than a front crosses in a film step (rehearsal/step_size.h).
constexpr int wake_margin = 6;

struct SheetState {
    Geometry geometry;
    materials::Paper paper;
    materials::Room room;             ///< as it is now (warm air changes it)
    double still_humidity = 0.5;      ///< 0 ... 1, of the room without warm air: dry paper is dry by this
    BoardKind board = BoardKind::sealed;
    double tilt_rad = 0;              ///< -π/2 ... π/2
    double tilt_direction_rad = 1.5707963267948966; ///< of downhill, from +x towards +y; -2π ... 2π
    double time_s = 0;

    Field<float> relief_m;      ///< fixed, mean 0 over the sheet, band-limited to the grid
    double relief_subgrid_rms_m = 0; ///< roughness finer than the grid carries

    Field<float> film_m;        ///< depth of water above relief_m; never negative; 0 on padding
    Field<float> film_low_m;    ///< low-order part of film_m (|.| < one rounding of it): total depth is their sum
    Field<float> film_before_m; ///< film_m as it was before the last flow step
    Field<float> flux_x_m2_s;   ///< (i, j): through the face between cells i and i+1, as limited in the last flow step
    Field<float> flux_y_m2_s;   ///< (i, j): between rows j and j+1
    Field<double> front_kg_m2, back_kg_m2; ///< water in the two halves of the sheet
    Field<float> drawn_m;       ///< depth of water drawn from film into front in the last uptake step
    Field<std::uint8_t> surface; ///< sheet::Surface
    Field<float> gum_lower_kg_m2, gum_upper_kg_m2; ///< binder in the two halves of the film, as pigment afloat
    Field<float> gum_bound_kg_m2; ///< binder dried on or in the sheet
    std::vector<PigmentState> pigments;
    std::vector<Pass> passes;   ///< oldest first
    Field<std::uint8_t> pass_count; ///< how many of `passes` this cell has
    double board_water_kg = 0;  ///< in an absorbent board

    grid::TileSet film_tiles;   ///< tiles with film, or next to film
    grid::TileSet damp_tiles;   ///< tiles whose paper is moister than the room makes it, or with film

    /// An empty sheet in equilibrium with the room; relief from `seed`.
    static SheetState make(double width_m, double height_m, double cell_m, const materials::Paper&,
                           const materials::Room&, BoardKind, const std::vector<materials::Pigment>&,
                           std::uint64_t seed);
    bool inside(int i, int j) const { return i >= 0 && j >= 0 && i < geometry.nx && j < geometry.ny; }
    /// All there is of a pigment on a cell, afloat, in the present pass and in earlier ones.
    double pigment_kg_m2(std::size_t pigment, int i, int j) const;
    /// Remakes film_tiles and damp_tiles from the fields. Without sleep a tile is awake wherever it lies: for film as long as
    /// there is any on the sheet, for damp always.
    void wake(bool sleep = true);
    /// From now on every pigment's tiles are known. Whoever brings or frees pigment says so: expect_pigment in a cell
    /// where it may have; forget_empty_tiles, now and then, drops the tiles where none is left.
    void track_pigment();
    void expect_pigment(int i, int j);
    void forget_empty_tiles();
    bool film_at_sleepers() const; ///< film is so near a sleeping tile that wake() would wake it
};

/// Moisture of a half sheet in equilibrium with water activity `a` (GAB), kg/m²; and the other way round. Activities
/// are clamped to 0 ... 1; GAB is published up to some 0.9 (from memory), beyond it is carried on.
double half_equilibrium_kg_m2(const materials::Paper&, double activity);
double activity_of_half(const materials::Paper&, double half_kg_m2);
inline double half_capacity_kg_m2(const materials::Paper& p) { return 0.5 * p.capacity_kg_m2; }

/// Depth of film that covers the relief: below it the sheen is broken.
double relief_fill_m(const materials::Paper&);

} // namespace tidemark::sheet
