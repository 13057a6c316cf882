// The same bytes with one thread and with two. The wash is larger than the 16384 cells from which work is shared out.
#include "support/water_scenes.h"

#include <cstring>
#include <omp.h>

using namespace scenes;

namespace {

sheet::SheetState painted(int threads, double degrees) {
    omp_set_num_threads(threads);
    Scene s(0.096, 0.064, 0.5e-3, water::FilmParams::of({}), materials::Paper{}, 5);
    s.tilt(degrees, 1.2);
    s.lay([&](double x, double y) {
        return x > 4e-3 && x < 92e-3 && y > 3e-3 && y < 60e-3 ? 120e-6 + 60e-6 * std::sin(300 * x) * std::cos(500 * y)
                                                              : 0.0;
    });
    REQUIRE(s.sheet.film_tiles.cells() > 16384);
    s.run(12, 0.02, 3);
    omp_set_num_threads(2);
    return std::move(s.sheet);
}

} // namespace

TEST_CASE("one thread and two give the same bytes", "[law][water]") {
    for (double degrees : {0.0, 8.0}) {
        const auto one = painted(1, degrees), two = painted(2, degrees);
        INFO(degrees << " degrees");
        const auto same = [&](const auto& a, const auto& b) {
            for (int j = 0; j < a.ny(); ++j)
                if (std::memcmp(a.row(j), b.row(j), a.nx() * sizeof(*a.row(j))) != 0)
                    return false;
            return true;
        };
        CHECK(same(one.film_m, two.film_m));
        CHECK(same(one.film_low_m, two.film_low_m));
        CHECK(same(one.flux_x_m2_s, two.flux_x_m2_s));
        CHECK(same(one.flux_y_m2_s, two.flux_y_m2_s));
        CHECK(same(one.surface, two.surface));
    }
}
