/// Small scenes for the checks of the film: a sheet, a film on it, and the solver that moves it.
///
/// Lengths in metres, (x, y) from the sheet's top left corner, cell (i, j) centred at ((i + ½) cell, (j + ½) cell).
#pragma once
#include "grid/units.h"
#include "water/flow.h"

#include <catch2/catch.hpp>
#include <cmath>

namespace scenes {

using namespace tidemark;

constexpr double gravity_m_s2 = 9.80665;
constexpr double nu_water_m2_s = 1.0034e-6; ///< 20 °C: 1.0016 mPa s (IAPWS 2008) over 998.2 kg/m³

/// The film alone: water on glass, nothing held, nothing drawn in, no inertia, every cell open, no surface tension.
inline water::FilmParams bare_film() {
    water::FilmParams p;
    p.nu_m2_s = nu_water_m2_s;
    p.gamma_N_m = 0;
    p.held_m = 0, p.valley_share = 0, p.retention_m2_s2 = 0;
    p.inertia = false, p.contact_line = false;
    return p;
}

inline materials::Paper smooth_paper() {
    materials::Paper paper;
    paper.relief_rms_m = 0;
    return paper;
}

struct Scene {
    sheet::SheetState sheet;
    water::FilmParams params;
    water::FilmSolver solver;
    double clock_s = 0;

    Scene(double width_m,
          double height_m,
          double cell_m,
          const water::FilmParams& p,
          const materials::Paper& paper = smooth_paper(),
          std::uint64_t seed = 1)
        : sheet(sheet::SheetState::make(width_m, height_m, cell_m, paper, {}, sheet::BoardKind::sealed, {}, seed)),
          params(p), solver(sheet, p) {}

    double cell() const { return sheet.geometry.cell_m; }
    double x(int i) const { return (i + 0.5) * cell(); }
    int nx() const { return sheet.geometry.nx; }
    int ny() const { return sheet.geometry.ny; }
    float& h(int i, int j) { return sheet.film_m(i, j); }
    void tilt(double degrees, double direction_rad) {
        sheet.tilt_rad = grid::rad_from_deg(degrees), sheet.tilt_direction_rad = direction_rad;
    }

    /// Lays a film of depth(x, y); what gets any counts as painted.
    template <class F> void lay(F&& depth) {
        for (int j = 0; j < ny(); ++j)
            for (int i = 0; i < nx(); ++i) {
                h(i, j) = static_cast<float>(std::max(0.0, static_cast<double>(depth(x(i), x(j)))));
                if (h(i, j) > 0)
                    sheet.surface(i, j) = static_cast<std::uint8_t>(sheet::Surface::wetted);
            }
        wake();
    }
    void wake() { sheet.wake(), solver.wake(sheet, params); }
    water::StepResult step(double dt_s) {
        const water::StepResult r = solver.advance(sheet, params, dt_s);
        REQUIRE(r.accepted);
        clock_s += dt_s;
        return r;
    }
    /// The same time in halves, where the solver refuses the whole.
    void pass(double dt_s) {
        const water::StepResult r = solver.advance(sheet, params, dt_s);
        if (r.accepted) {
            clock_s += dt_s;
            return;
        }
        REQUIRE(dt_s > 1e-6);
        pass(dt_s / 2), pass(dt_s / 2);
    }
    /// Passes of dt with the tiles and ways looked at every few, as a rehearsal does.
    void run(int steps, double dt_s, int look_every = 4) {
        for (int n = 0; n < steps; ++n) {
            pass(dt_s);
            if (n % look_every == look_every - 1)
                wake();
        }
    }
    double volume() {
        double sum = 0;
        for (int j = 0; j < ny(); ++j)
            for (int i = 0; i < nx(); ++i)
                sum += static_cast<double>(h(i, j)) + sheet.film_low_m(i, j);
        return sum * sheet.geometry.cell_area_m2();
    }
    /// Largest |flux| over all faces, m²/s.
    double largest_flux() {
        double worst = 0;
        for (int j = 0; j < ny(); ++j)
            for (int i = 0; i < nx(); ++i)
                worst = std::max({worst, std::abs(static_cast<double>(sheet.flux_x_m2_s(i, j))),
                                  std::abs(static_cast<double>(sheet.flux_y_m2_s(i, j)))});
        return worst;
    }
};

} // namespace scenes
