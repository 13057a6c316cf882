// A current down a slope: x_N = (9 A² g sin α t/4ν)^(1/3), and behind the front h = √(ν x/(g sin α t)).
// Huppert (1982) Nature 300, 427-429; the drainage profile is Jeffreys' (1930).
#include "support/published.h"
#include "support/water_scenes.h"

using namespace scenes;
using published::Check;

namespace {

/// The front, from where the film falls to half of what stands just behind it.
double front_m(Scene& s, int row) {
    double crest = 0;
    for (int i = 0; i < s.nx(); ++i)
        crest = std::max<double>(crest, s.h(i, row));
    int i = s.nx() - 2;
    while (i > 0 && s.h(i, row) < 0.5 * crest)
        --i;
    const double a = s.h(i, row), b = s.h(i + 1, row);
    return s.x(i) + s.cell() * (a - 0.5 * crest) / (a - b);
}

} // namespace

// A block of 4 mm is let go. Its rear edge makes the fan of characteristics of the similarity solution, which is
// exact once the fan has caught the front. The pressure gradient rounds the front over h cot α (0.2 mm) and upwind
// depths lag by two or three cells, dx ln(x/dx), at whatever distance: 2 % of the way to the front and in its
// exponent 0.01, 3 % of the depth. Its growth, in which a constant lag cancels, is held to 1 %. Mass: rounding of the
// flux differences, the same in every row of this scene and so not averaged out.
TEST_CASE("huppert 1982: a current runs down a slope as t^1/3", "[published][water]") {
    const double A = 2e-6, block = 4e-3, pull = gravity_m_s2 * std::sin(grid::rad_from_deg(15));
    const auto front = [&](double t) { return std::cbrt(9 * A * A * pull * t / (4 * nu_water_m2_s)); };
    Scene s(0.096, 4e-3, 0.5e-3, bare_film());
    s.tilt(15, 0);
    s.lay([&](double x, double) { return x < block ? A / block : 0.0; });
    const double before = s.volume();
    double t = 0, early = 0, t_early = 0;
    for (int n = 0; t < 30; ++n) {
        // The front runs at x_N/3t: half a cell a step.
        s.step(t == 0 ? 1e-3 : std::max(1e-3, 0.5 * s.cell() * 3 * t / std::max(front(t), block)));
        t = s.clock_s;
        if (n % 4 == 3)
            s.wake();
        if (early == 0 && t > 4)
            early = front_m(s, 4), t_early = t;
    }
    const double late = front_m(s, 4), exponent = std::log(late / early) / std::log(t / t_early);
    INFO("front " << late << " m, expected " << front(t) << ", exponent " << exponent);
    REQUIRE(late > 10 * block);
    const std::string nature = "Huppert 1982, Nature 300";
    Check{"front of a current down a slope after 30 s", nature, "mm"}.relative(1e3 * front(t), 1e3 * late, 0.02);
    Check{"way of a current down a slope from 4 to 30 s", nature, "mm"}.relative(1e3 * (front(t) - front(t_early)),
                                                                                 1e3 * (late - early), 0.01);
    Check{"exponent of a current down a slope", nature}.near(1.0 / 3, exponent, 0.01);
    for (double share : {0.4, 0.6, 0.8}) { // the drainage profile behind the front
        const int i = static_cast<int>(share * late / s.cell());
        Check{"depth behind the front of a current down a slope", "Jeffreys 1930", "µm"}.relative(
            1e6 * std::sqrt(nu_water_m2_s * s.x(i) / (pull * t)), 1e6 * s.h(i, 4), 0.03);
    }
    CHECK(std::abs(s.volume() / before - 1) < 1e-8);
}
