/// One step of the film.
///
///   FilmSolver solver(sheet);
///   solver.wake(sheet);                       // after acts and now and then: who is awake, who is open
///   StepResult r = solver.advance(sheet, params, dt_s);
///   if (!r.accepted) try again with half the dt: nothing was changed
///
/// Reads   film_m + film_low_m, relief_m, surface, front_kg_m2 (contact line), tilt.
/// Writes  film_m, film_low_m, film_before_m, flux_x_m2_s, flux_y_m2_s (as limited).
/// Range   of film.h: parameters, dt, tilt and cell are looked at when a solver is made and at each step.
/// Mass    exact: the depths change by differences of the same face fluxes (rounding carried in film_low_m).
#pragma once
#include "sheet/rim.h"
#include "sheet/sheet_state.h"
#include "water/downhill.h"
#include "water/film.h"
#include "water/multigrid.h"
#include "water/update_rows.h"

#include <vector>

namespace tidemark::water {

using sheet::SheetState;

struct StepResult {
    bool accepted = false;
    int cycles = 0;
    double residual_m = 0;    ///< largest that the solve left, as depth
    double change = 0;        ///< largest |Δh| / (h + 10 µm) of the step
    double speed_m_s = 0;     ///< largest 3 |q| / (h + 5 µm): the film's waves
    double limited_share = 0; ///< of the awake cells, how many gave all they had
};

class FilmSolver {
  public:
    FilmSolver() = default;
    explicit FilmSolver(const SheetState&, const FilmParams&);
    /// Remakes the spans after sheet.wake(), and the ways (contact_line.h).
    void wake(SheetState&, const FilmParams&);
    void update_ways(SheetState&, const FilmParams&);
    StepResult advance(SheetState&, const FilmParams&, double dt_s);
    /// From now on this solver steps a part of the sheet: s.film_tiles says which, `rim` is its rim (kept by the caller,
    /// until the next call), `whole` the solver that has just stepped all of it. What passes the rim is given, and each
    /// step says what did. Ways are those of `whole`; no wake() in between (part.cpp).
    void take_part(const SheetState&, const FilmSolver& whole, std::vector<sheet::RimFace>& rim);
    /// Ways of what is awake now, be it a part only.
    void update_ways_in_part(SheetState&, const FilmParams&);
    /// What it has found out in these tiles says nothing about the next step: they have been stepped as a part.
    void forget_in(const grid::TileSet&);
    /// Where the next step need not be solved, for it is taken again in parts; null: nowhere. Kept by the caller.
    void leave_unsolved(const grid::TileSet* tiles) { grid_.set_apart(tiles); }
    void forget() { warm_ = follows_ = false; } ///< water has landed: the last increments say nothing about the next
    /// The fluxes of the sheet are those of water that moves already: they begin with their momentum, as after a step
    /// of dt.
    void start_with_fluxes(const SheetState&, double dt_s);
    Field<float>& nu_factor() { return nu_factor_; } ///< viscosity of the mix over params.nu_m2_s, 1 and more
    bool all_pinned() const { return pinned_; }
    /// What one step hands to the next (grid/archive.h), read into a solver that was made for the same sheet. The
    /// other fields are written where the film is awake before they are read, and are as they were made where it
    /// sleeps.
    template <class A, class Self> static void archive(A& a, Self& self) {
        auto& [grid, awake, p, diagonal, cx, cy, q0x, q0y, ahead, nu_factor, way, given, depth_x, depth_y, left, answered,
               speed_x, speed_y, warm, pinned, follows, has_momentum, moved_dt_s, last_dt_s, overdrawn, rim] = self;
        const int nx = way.nx(), ny = way.ny();
        a(awake, nu_factor, way, left, answered, warm, pinned, follows, has_momentum, moved_dt_s, last_dt_s);
        if constexpr (A::reads) {
            for (const auto* f : {&nu_factor, &way, &left, &answered})
                a.require(f->nx() == nx && f->ny() == ny);
            a.require((awake.nx() == nx && awake.ny() == ny) || awake.nx() == 0);
            if (awake.nx() > 0)
                grid.set_spans(awake);
        }
        if (warm)
            a(grid);
        if (has_momentum) {
            a(depth_x, depth_y);
            if constexpr (A::reads)
                a.require(depth_x.nx() == nx && depth_x.ny() == ny && depth_y.nx() == nx && depth_y.ny() == ny);
        }
    }

  private:
    Multigrid grid_;
    grid::TileSet awake_; ///< that the spans were made for
    Field<float> p_;      ///< pressure, then its increments
    Field<float> diagonal_, cx_, cy_, q0x_, q0y_, ahead_, nu_factor_, way_;
    Field<float> given_;             ///< right-hand side, then the limiter's factors
    Field<float> depth_x_, depth_y_; ///< that the fluxes were made of
    Field<float> left_, answered_;   ///< what the last solve has left over, as depth, and the one before it (guess)
    Field<float> speed_x_, speed_y_; ///< of the momentum that faces hand on; then the depths of the fluxes to come
    bool warm_ = false, pinned_ = true;
    bool follows_ = false;       ///< the fluxes of the sheet are those of the step before, nothing has landed since
    bool has_momentum_ = false;  ///< the fluxes were made with inertia, of depth_x_ and depth_y_
    double moved_dt_s_ = 0;      ///< of the step before
    double last_dt_s_ = 0;       ///< of the last one tried
    std::vector<int> overdrawn_; ///< cells a row that would give more than they have
    std::vector<sheet::RimFace>* rim_ = nullptr; ///< of a part; null: the whole sheet
    void still_what_sleeps(SheetState&);
    const Field<float>& depth_ahead(const SheetState&, double dt_s);
    static Slope slope_of(const SheetState&, const FilmParams&);
    void guess(const SheetState&, float factor);
    void find_pressure(const SheetState&, const FilmParams&);
    const Field<float>& depth_of_faces(const SheetState&, const FilmParams&, double dt_s, Slope, bool inertia);
    bool carry_momentum(const SheetState&, const FilmParams&, double dt_s);
    bool prepare(const SheetState&, const FilmParams&, double dt_s, Slope);
    void give_rim();
    void limit_rim(SheetState&, Slope);
    void note_rim(SheetState&, double dt_s);
    long correct_fluxes(SheetState&, double dt_s);
    GivenRow given_of(SheetState&, int j, float k);
    void limit_fluxes(SheetState&, double dt_s);
    void move_depths(SheetState&, double dt_s, StepResult&);
};

} // namespace tidemark::water
