// A dam between two still depths breaks; no friction. With c0 = √(g h0), ξ = x/(c0 t):
//   dry bed (Ritter 1892, Z. VDI 36):       h/h0 = (2 - ξ)²/9 from ξ = -1 to 2
//   wet bed r (Stoker 1957, Water Waves):   a plateau hm = h_m/h0 and a shock ahead of it at ξ = S,
//                                           2 (1 - √hm) = (hm - r) √((hm + r)/(2 hm r)),  S = hm um/(hm - r)
// A scheme that does not keep momentum gets the plateau wrong and the shock late, the more the shallower the bed.
#include "support/published.h"
#include "support/water_scenes.h"

#include <string>

using namespace scenes;

namespace {

constexpr double h0_m = 0.1, seconds = 1, courant = 0.1;

struct Wave {
    double l1 = 0;      ///< of the depth, over the length of the fan, by h0
    double front = 0;   ///< ξ where h = 0.01 h0
    double plateau = 0; ///< by h0
    double shock = 0;   ///< ξ half-way between the plateau and the bed
    double cell = 0;    ///< in ξ
    double mass_error = 0;
};

struct Stoker {
    double r, plateau, speed, shock;
    explicit Stoker(double bed) : r(bed) {
        double low = r, high = 1;
        for (int n = 0; n < 60; ++n) {
            const double m = 0.5 * (low + high);
            const bool below = 2 * (1 - std::sqrt(m)) > (m - r) * std::sqrt((m + r) / (2 * m * r));
            (below ? low : high) = m;
        }
        plateau = 0.5 * (low + high), speed = 2 * (1 - std::sqrt(plateau)), shock = plateau * speed / (plateau - r);
    }
    double depth(double xi) const {
        return xi < -1 ? 1 : xi < speed - std::sqrt(plateau) ? (2 - xi) * (2 - xi) / 9 : xi < shock ? plateau : r;
    }
};

std::string on_bed(double r) { return "dam break, bed of h0/" + std::to_string(std::lround(1 / r)); }

double ritter(double xi) { return xi < -1 ? 1 : xi < 2 ? (2 - xi) * (2 - xi) / 9 : 0; }

/// `cells` across the dry fan; the dam breaks along x or along y.
template <class Exact>
Wave broken(double bed, int cells, bool down, const Exact& exact, const Stoker* stoker = nullptr) {
    const double c0 = std::sqrt(gravity_m_s2 * h0_m), dx = 3 * c0 * seconds / cells;
    const int dam = static_cast<int>(std::lround(1.2 / dx));
    auto p = bare_film();
    p.inertia = true, p.nu_m2_s = 1e-12, p.tolerance_m = 1e-6;
    Scene s(down ? 8 * dx : 3.6, down ? 3.6 : 8 * dx, dx, p);
    s.lay([&](double x, double y) { return (down ? y : x) < dam * dx ? h0_m : bed * h0_m; });
    const double before = s.volume();
    const int steps = static_cast<int>(std::ceil(seconds * c0 / (courant * dx)));
    for (int n = 0; n < steps; ++n) {
        s.step(seconds / steps);
        if (n % 2 == 1)
            s.wake();
    }
    const auto h = [&](int n) { return (down ? s.h(4, n) : s.h(n, 4)) / h0_m; };
    Wave w;
    w.cell = dx / (c0 * seconds), w.mass_error = s.volume() / before - 1;
    const int last = (down ? s.ny() : s.nx()) - 1;
    double sum = 0;
    int many = 0;
    for (int n = 0; n < last; ++n) {
        const double xi = (n + 0.5 - dam) * w.cell;
        w.l1 += std::abs(h(n) - exact(xi)) * w.cell / 3;
        const auto falls_through = [&](double level) { return h(n) > level && h(n + 1) <= level; };
        const auto where = [&](double level) { return xi + w.cell * (h(n) - level) / (h(n) - h(n + 1)); };
        if (falls_through(0.01))
            w.front = where(0.01);
        if (!stoker)
            continue;
        const double from = stoker->speed - std::sqrt(stoker->plateau), length = stoker->shock - from;
        if (xi > from + 0.15 * length && xi < stoker->shock - 0.15 * length)
            sum += h(n), ++many;
        if (const double half = 0.5 * (stoker->plateau + bed); falls_through(half))
            w.shock = where(half);
    }
    w.plateau = many ? sum / many : 0;
    return w;
}

} // namespace

// The tip of a frictionless front is a film of nothing that outruns every grid: it is looked for at h0/100, where it
// has come to ξ = 1.7. Order: the edges of the fan are kinks, which a first-order scheme meets with 0.7 to 1.
TEST_CASE("ritter 1892: a dam breaks onto dry ground", "[published][water]") {
    for (bool down : {false, true}) {
        const Wave coarse = broken(0, 200, down, ritter), fine = broken(0, 400, down, ritter);
        published::Check{"dam break, dry bed: depth (L1), 400 cells", "Ritter 1892", "% of h0"}.at_most(
            1, 100 * fine.l1);
        published::Check{"dam break, dry bed: where h = h0/100", "Ritter 1892", "c0 t"}.near(1.7, fine.front, 0.1);
        published::Check{"dam break, dry bed: order of convergence", "Ritter 1892"}.at_least(
            0.7, std::log2(coarse.l1 / fine.l1));
        CHECK(std::abs(fine.mass_error) < 1e-9);
    }
}

// A shock is smeared upwind over some six cells, and half-way down it lies one cell (deep beds) to three (r = 0.01)
// behind: 1.5 and 3 cells, and 0.5 % of its way.
TEST_CASE("stoker 1957: a dam breaks onto still water, with a shock at its speed", "[published][water]") {
    for (double r : {0.5, 0.1, 0.01}) {
        const Stoker exact(r);
        const auto depth = [&](double xi) { return exact.depth(xi); };
        const Wave coarse = broken(r, 200, false, depth, &exact), fine = broken(r, 400, false, depth, &exact);
        const auto of = [&](const char* what) { return on_bed(r) + ": " + what; };
        INFO("bed " << r << ": shock " << fine.shock << " for " << exact.shock);
        published::Check{of("depth (L1)"), "Stoker 1957", "% of h0"}.at_most(1, 100 * fine.l1);
        published::Check{of("plateau"), "Stoker 1957", "h0"}.relative(exact.plateau, fine.plateau, 0.005);
        published::Check{of("shock"), "Stoker 1957", "c0 t"}.near(
            exact.shock, fine.shock, 0.005 * exact.shock + (r < 0.05 ? 3 : 1.5) * fine.cell);
        published::Check{of("order of convergence"), "Stoker 1957"}.at_least(0.7, std::log2(coarse.l1 / fine.l1));
        CHECK(std::abs(fine.mass_error) < 1e-9);
    }
}
