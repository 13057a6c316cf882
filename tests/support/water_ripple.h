/// A ripple on a level film, measured.
///
/// The sheet's border is a pinned edge; what it does to the film is the same with and without the ripple, so the ripple
/// is the difference of the two, in the middle of the sheet.
#pragma once
#include "support/water_scenes.h"

namespace scenes {

constexpr double gamma_N_m = 0.0727, rho_kg_m3 = 1000;

inline water::FilmParams with_surface_tension() {
    auto p = bare_film();
    p.gamma_N_m = gamma_N_m;
    p.tolerance_m = 5e-9; // the ripple is 1 % of the depth; what a step may leave unsolved must be small beside it
    return p;
}

/// A film with a ripple of 1 % along (cos φ, sin φ), and its twin without.
struct Ripple {
    Scene with, without;
    double depth_m, kx, ky, middle_m;

    Ripple(double depth, double wave, double angle, double width, double cell, const water::FilmParams& p)
        : with(width, width, cell, p), without(width, width, cell, p), depth_m(depth),
          kx(2 * M_PI / wave * std::cos(angle)), ky(2 * M_PI / wave * std::sin(angle)), middle_m(width / 2) {
        with.lay([&](double x, double y) { return depth * (1 + 0.01 * phase(x, y)); });
        without.lay([&](double, double) { return depth; });
    }
    double phase(double x, double y) const { return std::cos(kx * (x - middle_m) + ky * (y - middle_m)); }
    void step(double dt) { with.step(dt), without.step(dt); }
    /// Projection on the mode under a Gaussian window of half a wave's breadth, over the depth.
    double amplitude() {
        const double breadth = M_PI / std::hypot(kx, ky);
        const int first = static_cast<int>((middle_m - 3 * breadth) / with.cell()), last = with.nx() - first;
        double sum = 0, norm = 0;
        for (int j = first; j < last; j += 2)
            for (int i = first; i < last; ++i) {
                const double u = with.x(i) - middle_m, v = with.x(j) - middle_m, c = phase(with.x(i), with.x(j));
                const double w = std::exp(-(u * u + v * v) / (breadth * breadth)) * c;
                sum += w * (with.h(i, j) - without.h(i, j)), norm += w * c;
            }
        return sum / norm / depth_m;
    }
};

} // namespace scenes
