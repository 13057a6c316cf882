// Space has no preferred side: a mirrored or transposed scene gives the mirrored or transposed film. Not to the last
// bit, for the solver visits cells in red-black order from the top left; what it leaves unsolved differs, and each
// step may add that much. Tolerance: 3 solver tolerances; a preference of the scheme itself would show as
// micrometres. The wash is pinned: a front that runs down a tilted board fingers (Huppert 1982) and makes much of the
// least difference.
#include "support/water_scenes.h"

using namespace scenes;

namespace {

constexpr double size_m = 0.032, tolerance_m = 20e-9;

/// A wash of odd shape over a rough sheet, after half a second. `map` says which place (x, y) of the plain scene is
/// seen here.
template <class Map> Scene wash(Map&& map, double degrees, double direction_rad) {
    auto p = water::FilmParams::of({});
    p.tolerance_m = tolerance_m;
    Scene s(size_m, size_m, 0.5e-3, p);
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i) {
            const auto [x, y] = map(s.x(i), s.x(j));
            s.sheet.relief_m(i, j) =
                static_cast<float>(30e-6 * std::sin(2100 * x + 700 * y) * std::cos(1500 * y - 300 * x));
        }
    s.tilt(degrees, direction_rad);
    s.lay([&](double u, double v) {
        const auto [x, y] = map(u, v);
        return x > 8e-3 && x < 20e-3 && y > 6e-3 + 0.3 * x && y < 24e-3
                   ? 150e-6 + 4e-3 * x + 100e-6 * std::sin(400 * y)
                   : 0.0;
    });
    for (double dt = 1e-3; s.clock_s < 0.5; dt = std::min(1.2 * dt, 0.02))
        s.step(dt), s.wake();
    return s;
}

using Place = std::pair<double, double>;

/// Largest difference between scene `a` and `b` seen through `to`: cell of a → cell of b.
template <class To> double difference(Scene& a, Scene& b, To&& to) {
    double worst = 0;
    for (int j = 0; j < a.ny(); ++j)
        for (int i = 0; i < a.nx(); ++i) {
            const auto [u, v] = to(i, j);
            worst = std::max(worst, std::abs(static_cast<double>(a.h(i, j)) - b.h(u, v)));
        }
    return worst;
}

} // namespace

TEST_CASE("a mirrored or transposed scene gives the mirrored or transposed film", "[law][water]") {
    const auto plain = [](double x, double y) { return Place{x, y}; };
    const auto left_right = [](double x, double y) { return Place{size_m - x, y}; };
    const auto up_down = [](double x, double y) { return Place{x, size_m - y}; };
    const auto transposed = [](double x, double y) { return Place{y, x}; };
    const double direction = 0.4;
    for (double degrees : {0.0, 10.0}) {
        Scene a = wash(plain, degrees, direction);
        const int n = a.nx() - 1;
        INFO(degrees << " degrees");
        Scene b = wash(left_right, degrees, M_PI - direction);
        CHECK(difference(a, b, [&](int i, int j) { return std::pair{n - i, j}; }) < 3 * tolerance_m);
        Scene c = wash(up_down, degrees, -direction);
        CHECK(difference(a, c, [&](int i, int j) { return std::pair{i, n - j}; }) < 3 * tolerance_m);
        Scene d = wash(transposed, degrees, M_PI / 2 - direction);
        CHECK(difference(a, d, [&](int i, int j) { return std::pair{j, i}; }) < 3 * tolerance_m);
        // The scene has no symmetry of its own: seen unmirrored, the films differ.
        CHECK(difference(a, b, [&](int i, int j) { return std::pair{i, j}; }) > 20e-6);
        CHECK(difference(a, d, [&](int i, int j) { return std::pair{i, j}; }) > 20e-6);
    }
}
