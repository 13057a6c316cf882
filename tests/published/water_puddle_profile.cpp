// A strip of water pinned along two edges takes the shape in which gravity and surface tension agree:
//   γ h'' = ρ g (h - h_inf),  h = h_inf (1 - cosh(x/l_c)/cosh(L/l_c)),  l_c = √(γ/ρg)
// flat in the middle, falling to its edge over a capillary length: the equation of the meniscus for small slopes
// (de Gennes, Brochard-Wyart & Quéré 2004, ch. 2), here with the strip's own volume.
#include "support/published.h"
#include "support/water_scenes.h"

#include <string>

using namespace scenes;

namespace {

struct Shape {
    double middle_share = 0; ///< depth in the middle over the formula's
    double worst = 0;        ///< largest error anywhere further than a cell from the edge, by h_inf
    double l1 = 0;           ///< mean error by h_inf
    double slope_share = 0;  ///< fall from 3 to 1 mm from the edge over the formula's
};

/// Half width L, laid `depth_m` deep and left until it is still.
Shape rested(double half_width_m, double depth_m, double cell_m) {
    auto p = bare_film();
    p.gamma_N_m = 0.0727, p.contact_line = true, p.theta_advancing_rad = 1.2, p.tolerance_m = 0.05e-6;
    const double width = 2 * half_width_m + 16 * cell_m, left = 8 * cell_m, middle = left + half_width_m;
    const double length = 40e-3; // its ends are edges too: 7 l_c from the middle row
    Scene s(width, length, cell_m, p);
    const int row = s.ny() / 2;
    s.lay([&](double x, double) { return std::abs(x - middle) < half_width_m ? depth_m : 0.0; });
    for (double dt = 1e-3; s.clock_s < 60; dt = std::min(1.2 * dt, 1.0))
        s.run(1, dt, 1);
    const double lc = p.capillary_length_m(), far = half_width_m / lc;
    double section = 0; // of this row: some has run to the ends
    for (int i = 0; i < s.nx(); ++i)
        section += s.h(i, row) * cell_m;
    const double h_inf = section / (2 * half_width_m) / (1 - std::tanh(far) / far);
    const auto exact = [&](double x) { return h_inf * (1 - std::cosh((x - middle) / lc) / std::cosh(far)); };
    Shape r;
    int n = 0;
    for (int i = 0; i < s.nx(); ++i) {
        const double from_edge = half_width_m - std::abs(s.x(i) - middle);
        if (from_edge < 0)
            continue;
        const double error = std::abs(s.h(i, row) - exact(s.x(i))) / h_inf;
        r.l1 += error, ++n;
        if (from_edge > cell_m)
            r.worst = std::max(r.worst, error);
    }
    r.l1 /= n;
    const auto at = [&](double from_edge) { // between cells
        const double u = (left + from_edge) / cell_m - 0.5;
        const int i = static_cast<int>(u);
        return (1 - (u - i)) * s.h(i, row) + (u - i) * s.h(i + 1, row);
    };
    r.middle_share = at(half_width_m) / exact(middle);
    r.slope_share = (at(3e-3) - at(1e-3)) / (exact(left + 3e-3) - exact(left + 1e-3));
    return r;
}

} // namespace

TEST_CASE("de gennes et al. 2004: a pinned strip of water rests in the shape of its meniscus", "[published][water]") {
    const Shape coarse = rested(10e-3, 300e-6, 1e-3), fine = rested(10e-3, 300e-6, 0.5e-3),
                finest = rested(10e-3, 300e-6, 0.25e-3);
    INFO("mean error " << coarse.l1 << ", " << fine.l1 << ", " << finest.l1 << "; worst " << fine.worst << ", "
                       << finest.worst);
    const char* source = "de Gennes et al. 2004";
    published::Check{"pinned strip at rest: depth in the middle, 0.5 mm cells", source, "of its own"}.relative(
        1, fine.middle_share, 0.02);
    published::Check{"pinned strip at rest: fall from 3 to 1 mm off the edge, 0.5 mm cells", source, "of its own"}
        .relative(1, fine.slope_share, 0.02);
    published::Check{"pinned strip at rest: profile (mean), 0.25 mm cells", source, "% of depth"}.at_most(
        0.5, 100 * finest.l1);
    published::Check{"pinned strip at rest: order of convergence", source}.at_least(1.5,
                                                                                    std::log2(fine.l1 / finest.l1));
}
