// Where film may go is the paper's decision: dry sized paper holds the edge, wet paper lets it go, damp paper wicks.
#include "support/water_scenes.h"
#include "water/contact_line.h"

using namespace scenes;

namespace {

/// A wash 16 mm square on rough paper whose fibres have the share `full` of their room for free water taken.
Scene wash_on(double full, double depth_m) {
    Scene s(0.032, 0.032, 0.5e-3, water::FilmParams::of({}), materials::Paper{}, 9);
    double low = 0, high = sheet::half_capacity_kg_m2(s.sheet.paper); // the front's water, found by halving
    for (int n = 0; n < 60; ++n) {
        const double middle = 0.5 * (low + high);
        (water::free_saturation(s.sheet.paper, middle) < full ? low : high) = middle;
    }
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i)
            s.sheet.front_kg_m2(i, j) = high;
    s.lay([&](double x, double y) {
        return std::max(std::abs(x - 0.016), std::abs(y - 0.016)) < 0.008 ? depth_m : 0.0;
    });
    return s;
}

/// Water beyond the painted square, m³, and how many cells have any.
struct Beyond {
    double volume = 0;
    int cells = 0;
};

Beyond beyond(Scene& s) {
    Beyond b;
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i)
            if (std::max(std::abs(s.x(i) - 0.016), std::abs(s.x(j) - 0.016)) > 0.008)
                b.volume += s.h(i, j) * s.sheet.geometry.cell_area_m2(), b.cells += s.h(i, j) > 0;
    return b;
}

Beyond after(Scene s, double seconds) {
    for (double dt = 1e-3; s.clock_s < seconds; dt = std::min(1.2 * dt, 0.1))
        s.run(1, dt, 2);
    return beyond(s);
}

} // namespace

TEST_CASE("a film on dry sized paper stays inside the painted area to the cell", "[law][water]") {
    for (double depth : {100e-6, 400e-6}) {
        Scene s = wash_on(0, depth);
        CHECK(s.solver.all_pinned());
        CHECK(after(std::move(s), 10).cells == 0);
    }
}

TEST_CASE("wet paper lets the film go, half-wet paper wicks a little, drier paper nothing", "[law][water]") {
    const double depth = 200e-6, painted = depth * 0.016 * 0.016;
    const Beyond dry = after(wash_on(0.3, depth), 4), damp = after(wash_on(0.6, depth), 4);
    const Beyond moist = after(wash_on(0.8, depth), 4), wet = after(wash_on(0.95, depth), 4);
    CHECK(dry.cells == 0);
    CHECK(damp.volume > 0);
    CHECK(moist.volume > damp.volume);
    CHECK(moist.volume < 0.1 * painted);
    CHECK(wet.volume > 0.2 * painted);
    CHECK_FALSE(wash_on(0.95, depth).solver.all_pinned());
}

TEST_CASE("a painted cell that has lost its film is judged by its fibres again", "[law][water]") {
    Scene s = wash_on(0, 150e-6);
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < 24; ++i)
            s.h(i, j) = s.sheet.film_low_m(i, j) = 0; // blotted
    s.wake();
    CHECK(s.sheet.surface(20, 32) == static_cast<std::uint8_t>(sheet::Surface::dry));
    s.run(40, 0.05);
    float crossed = 0;
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < 24; ++i)
            crossed = std::max(crossed, s.h(i, j));
    CHECK(crossed == 0);
}
