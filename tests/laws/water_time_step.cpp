// Half the step, half the error: the scheme is first order in time, and steps of different length tend to one film.
#include "support/water_scenes.h"

using namespace scenes;

namespace {

sheet::Field<float> after(double seconds, double dt, bool inertia, double degrees) {
    auto p = water::FilmParams::of({});
    p.inertia = p.inertia_on_tilt = inertia, p.contact_line = false, p.tolerance_m = 20e-9;
    Scene s(0.032, 0.032, 0.5e-3, p);
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i)
            s.sheet.relief_m(i, j) = static_cast<float>(15e-6 * std::sin(1900 * s.x(i)) * std::sin(1300 * s.x(j)));
    s.tilt(degrees, 0.5);
    s.lay([](double x, double y) { return 100e-6 * (1 + 0.5 * std::sin(500 * x) * std::cos(400 * y)); });
    for (int n = 0; n < std::lround(seconds / dt); ++n)
        s.step(dt);
    return s.sheet.film_m;
}

double mean_difference(const sheet::Field<float>& a, const sheet::Field<float>& b) {
    double sum = 0;
    for (int j = 0; j < 64; ++j)
        for (int i = 0; i < 64; ++i)
            sum += std::abs(static_cast<double>(a(i, j)) - b(i, j));
    return sum / (64 * 64);
}

} // namespace

// Differences between dt and dt/2 halve with dt. Between 1.6 and 2.5: the next order is not nothing at these steps.
TEST_CASE("steps of half the length agree, to first order", "[law][water]") {
    for (double degrees : {0.0, 8.0})
        for (bool inertia : {false, true}) {
            const double dt = 0.04;
            const auto a = after(0.64, dt, inertia, degrees), b = after(0.64, dt / 2, inertia, degrees);
            const auto c = after(0.64, dt / 4, inertia, degrees);
            const double coarse = mean_difference(a, b), fine = mean_difference(b, c);
            INFO(degrees << " degrees, inertia " << inertia << ": " << coarse << " m, then " << fine << " m");
            CHECK(coarse < 2e-6); // 2 % of the depth
            CHECK(coarse / fine > 1.6);
            CHECK(coarse / fine < 2.5);
        }
}

// A front that advances over wet paper, with relief and surface tension. Held to a third of the error of frozen
// mobility, which is late by a step: both against steps of a fortieth.
TEST_CASE("looking ahead makes long steps at a free edge at least three times as exact", "[law][water]") {
    const auto spread = [](double dt, bool look_ahead) {
        auto p = water::FilmParams::of({});
        p.contact_line = false, p.look_ahead = look_ahead;
        Scene s(0.032, 0.032, 0.5e-3, p, materials::Paper{}, 3);
        s.lay([](double x, double y) {
            return 200e-6 * (1 - std::pow((x - 0.016) / 9e-3, 2) - std::pow((y - 0.016) / 9e-3, 2));
        });
        for (double t = 5e-4; s.clock_s < 0.3; t = std::min(1.1 * t, 0.01))
            s.run(1, t, 1);
        for (int n = 0; n < std::lround(2 / dt); ++n)
            s.step(dt), s.wake();
        return s.sheet.film_m;
    };
    const auto exact = spread(0.005, true);
    const double ahead = mean_difference(spread(0.2, true), exact),
                 frozen = mean_difference(spread(0.2, false), exact);
    INFO("mean error " << ahead << " m, frozen " << frozen << " m");
    CHECK(frozen > 0.2e-6); // there is something to gain
    CHECK(ahead < frozen / 3);
}
