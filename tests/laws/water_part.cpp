// A part of the sheet stepped alone between fluxes that a step of the whole has given.
#include "support/water_scenes.h"

using namespace scenes;

namespace {

constexpr double cell_m = 0.5e-3, wide_m = 0.096, high_m = 0.128; // 6 × 8 tiles

/// A wet sheet that drains, with a deep spot in its middle.
Scene draining(double towards_rad) {
    water::FilmParams p;
    p.nu_m2_s = nu_water_m2_s;
    Scene s(wide_m, high_m, cell_m, p, materials::Paper{}, 5);
    s.tilt(8, towards_rad);
    s.lay([](double x, double y) {
        const double dx = x - 0.5 * wide_m, dy = y - 0.5 * high_m;
        return 70e-6 + (dx * dx + dy * dy < 0.008 * 0.008 ? 60e-6 : 0.0);
    });
    for (int n = 0; n < 8; ++n)
        s.step(0.03);
    return s;
}

grid::TileSet middle(const Scene& s) {
    grid::TileSet part(s.sheet.geometry.px, s.sheet.geometry.py);
    for (int tj = 2; tj < 6; ++tj)
        for (int ti = 1; ti < 5; ++ti)
            part.set(ti, tj, true);
    part.rebuild();
    return part;
}

/// Steps the whole for dt, then the part again from where it was, in n steps.
struct InParts {
    grid::Field<float> whole, parted;
    double volume_before = 0, volume_after = 0, passed_m = 0, moved_m = 0;
};

InParts in_parts(Scene& s, double dt_s, int n) {
    InParts r;
    r.volume_before = s.volume();
    const grid::Field<float> before = s.sheet.film_m, low = s.sheet.film_low_m;
    s.step(dt_s);
    r.whole = s.sheet.film_m;
    grid::TileSet part = middle(s), all = s.sheet.film_tiles;
    std::vector<sheet::RimFace> rim = sheet::rim_of(s.sheet, part);
    const auto inside = [&](auto&& f) {
        for (int j = 0; j < s.ny(); ++j)
            for (const grid::Span& span : part.spans(j))
                for (int i = span.begin; i < span.end; ++i)
                    f(i, j);
    };
    double held = 0;
    inside([&](int i, int j) {
        s.sheet.film_m(i, j) = before(i, j), s.sheet.film_low_m(i, j) = low(i, j);
        held += static_cast<double>(before(i, j)) + low(i, j);
    });
    water::FilmSolver finely(s.sheet, s.params);
    s.sheet.film_tiles = part;
    finely.take_part(s.sheet, s.solver, rim);
    for (int k = 0; k < n; ++k)
        REQUIRE(finely.advance(s.sheet, s.params, dt_s / n).accepted);
    s.sheet.film_tiles = all;
    inside([&](int i, int j) { r.moved_m += static_cast<double>(s.sheet.film_m(i, j)) + s.sheet.film_low_m(i, j); });
    r.moved_m -= held;
    for (const sheet::RimFace& f : rim)
        r.passed_m -= f.out(f.passed_m);
    r.parted = s.sheet.film_m;
    r.volume_after = s.volume();
    return r;
}

double largest_difference(const Scene& s, const grid::Field<float>& a, const grid::Field<float>& b) {
    double worst = 0;
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i)
            worst = std::max(worst, std::abs(static_cast<double>(a(i, j)) - b(i, j)));
    return worst;
}

} // namespace

TEST_CASE("a part stepped as long as the whole comes to the depths of the whole", "[law][water]") {
    for (double towards : {M_PI / 2, -M_PI / 2, 0.0, M_PI, 1.0}) {
        Scene s = draining(towards);
        const InParts r = in_parts(s, 0.05, 1);
        // Each solve may be off by its tolerance; beside the rim the look ahead knows a little less (downhill.cpp).
        CHECK(largest_difference(s, r.whole, r.parted) < 3 * s.params.tolerance_m);
    }
}

TEST_CASE("in parts no water is gained or lost, and what a part gains has passed its rim", "[law][water]") {
    for (double towards : {M_PI / 2, 0.0, 1.0}) {
        Scene s = draining(towards);
        const InParts r = in_parts(s, 0.3, 6);
        CHECK(r.moved_m == Approx(r.passed_m).margin(1e-12));
        // The rest has given what it was told; the two differ by rounding only.
        CHECK(r.volume_after == Approx(r.volume_before).epsilon(1e-7));
    }
}

TEST_CASE("a part stepped finely is nearer to a whole stepped finely than one long step is", "[law][water]") {
    Scene reference = draining(M_PI / 2);
    for (int n = 0; n < 48; ++n)
        reference.step(0.6 / 48);
    Scene parted = draining(M_PI / 2);
    const InParts r = in_parts(parted, 0.6, 12);
    const auto off = [&](const grid::Field<float>& film) { // in the middle of the part, 8 tiles
        double sum = 0;
        for (int j = 96; j < 160; ++j)
            for (int i = 64; i < 128; ++i)
                sum += std::abs(static_cast<double>(film(i, j)) - reference.h(i, j));
        return sum;
    };
    CHECK(off(r.parted) < 0.3 * off(r.whole));
}

TEST_CASE("a solver that has stepped other parts before steps a part as a new one does, to the bit", "[law][water]") {
    const auto stepped = [](bool used) {
        Scene s = draining(M_PI / 2);
        s.step(0.1);
        water::FilmSolver finely(s.sheet, s.params);
        const grid::TileSet all = s.sheet.film_tiles;
        const auto step_part = [&](int left, int right) {
            grid::TileSet part(s.sheet.geometry.px, s.sheet.geometry.py);
            for (int tj = 2; tj < 6; ++tj)
                for (int ti = left; ti < right; ++ti)
                    part.set(ti, tj, true);
            part.rebuild();
            std::vector<sheet::RimFace> rim = sheet::rim_of(s.sheet, part);
            const sheet::SheetState before = s.sheet;
            s.sheet.film_tiles = part;
            finely.take_part(s.sheet, s.solver, rim);
            REQUIRE(finely.advance(s.sheet, s.params, 0.05).accepted);
            grid::Field<float> film = s.sheet.film_m;
            s.sheet = before;
            return film;
        };
        if (used)
            step_part(2, 4);
        // Beside the part there is no rim now: what was one sleeps.
        for (int tj = 0; tj < all.tiles_y(); ++tj)
            s.sheet.film_tiles.set(1, tj, false);
        s.sheet.film_tiles.rebuild();
        return step_part(2, 5);
    };
    const grid::Field<float> fresh = stepped(false), used = stepped(true);
    for (int j = 0; j < fresh.ny(); ++j)
        CHECK(std::equal(fresh.row(j), fresh.row(j) + fresh.nx(), used.row(j)));
}

TEST_CASE("where a part runs out of water at its rim, what passed is what it had", "[law][water]") {
    Scene s = draining(M_PI / 2);
    s.step(0.3);
    grid::TileSet part = middle(s);
    std::vector<sheet::RimFace> rim = sheet::rim_of(s.sheet, part);
    double before = 0, passed = 0, after = 0, asked = 0, least = 0;
    const auto all = [&](double& sum) {
        for (int j = 0; j < s.ny(); ++j)
            for (const grid::Span& span : part.spans(j))
                for (int i = span.begin; i < span.end; ++i)
                    sum += static_cast<double>(s.h(i, j)) + s.sheet.film_low_m(i, j);
    };
    all(before);
    for (sheet::RimFace& f : rim) // more than there is, out of every side
        f.given_m2_s = f.out(3e-4f * static_cast<float>(cell_m));
    s.sheet.film_tiles = part;
    water::FilmSolver finely(s.sheet, s.params);
    finely.take_part(s.sheet, s.solver, rim);
    REQUIRE(finely.advance(s.sheet, s.params, 0.4).accepted);
    all(after);
    for (const sheet::RimFace& f : rim)
        passed += f.out(f.passed_m), asked += 3e-4 * 0.4;
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i)
            least = std::min(least, static_cast<double>(s.h(i, j)) + s.sheet.film_low_m(i, j));
    CHECK(least > -1e-10);
    CHECK(passed < 0.95 * asked);
    CHECK(before - after == Approx(passed).epsilon(1e-6));
}
