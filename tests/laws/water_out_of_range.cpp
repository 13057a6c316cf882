// A film, a tilt or a step beyond what the scheme is meant for is refused by name and range.
#include "support/refused.h"
#include "support/water_scenes.h"

#include <numbers>

using namespace tidemark;
using scene::said;
using scene::takes_only;
using scenes::Scene;
using water::FilmParams;

namespace {

struct Of {
    const char* name;
    grid::Allowed allowed;
    double FilmParams::*member;
};
const Of all[] = {{"nu_m2_s", {1e-13, 1e-2, "m²/s"}, &FilmParams::nu_m2_s},
                  {"gamma_N_m", {0, 0.5, "N/m"}, &FilmParams::gamma_N_m},
                  {"gravity_m_s2", {0, 100, "m/s²"}, &FilmParams::gravity_m_s2},
                  {"held_m", {0, 1000, "µm", 1e-6}, &FilmParams::held_m},
                  {"felt_permeability_m2", {0, 1e-9, "m²"}, &FilmParams::felt_permeability_m2},
                  {"valley_share", {0, 1}, &FilmParams::valley_share},
                  {"retention_m2_s2", {0, 100, "m²/s²"}, &FilmParams::retention_m2_s2},
                  {"retention_depth_m", {0.1, 1000, "µm", 1e-6}, &FilmParams::retention_depth_m},
                  {"theta_advancing_rad", {0, std::numbers::pi, "rad"}, &FilmParams::theta_advancing_rad},
                  {"theta_receding_rad", {0, 1.2217, "rad"}, &FilmParams::theta_receding_rad},
                  {"air_stress_x_Pa", {-10, 10, "Pa"}, &FilmParams::air_stress_x_Pa},
                  {"air_stress_y_Pa", {-10, 10, "Pa"}, &FilmParams::air_stress_y_Pa},
                  {"tolerance_m", {0, 1, "m"}, &FilmParams::tolerance_m},
                  {"refused_m", {0, 1, "m"}, &FilmParams::refused_m}};

Scene pool() {
    Scene s(8e-3, 8e-3, 0.5e-3, FilmParams{});
    s.lay([](double x, double y) { return x < 4e-3 && y < 4e-3 ? 1e-4 : 0; });
    return s;
}

FilmParams with(double FilmParams::*member, double value) {
    FilmParams p;
    if (member == &FilmParams::theta_advancing_rad)
        p.theta_receding_rad = 0;
    p.*member = value;
    return p;
}

} // namespace

TEST_CASE("a film's numbers are refused when a solver is made and when it steps", "[law][water]") {
    Scene s = pool();
    for (const Of& of : all) {
        takes_only(of.name, of.allowed, [&](double v) { with(of.member, v).check(); });
        takes_only(of.name, of.allowed, [&](double v) { water::FilmSolver(s.sheet, with(of.member, v)); });
        const double over = (of.allowed.hi + 0.1 * std::abs(of.allowed.hi)) * of.allowed.si;
        CHECK(said([&] { s.solver.advance(s.sheet, with(of.member, over), 1e-3); }).rfind(of.name, 0) == 0);
    }
    FilmParams p;
    p.cycles_max = -1;
    CHECK(said([&] { p.check(); }) == "cycles_max is -1; allowed: 0 to 1000");
    p.cycles_max = 0;
    CHECK(said([&] { p.check(); }) == "");
}

TEST_CASE("a paper's film is refused when the paper's numbers are out of range", "[law][water]") {
    takes_only("held_m", {0, 1000, "µm", 1e-6}, [](double m) {
        materials::Paper paper;
        paper.held_m = m;
        FilmParams::of(paper);
    });
    materials::Paper paper;
    paper.theta_advancing_rad = 0.1;
    CHECK(said([&] { FilmParams::of(paper); }) == "theta_receding_rad is 0.1745 rad; allowed: 0 to 0.1 rad");
}

TEST_CASE("steps, tilts and cells out of range are refused", "[law][water]") {
    const Scene at_start = pool();
    takes_only("dt_s", {1e-9, 1e5, "s"}, [&](double dt) {
        Scene s = at_start;
        s.solver.advance(s.sheet, s.params, dt);
    });
    takes_only("dt_s", {1e-9, 1e5, "s"}, [&](double dt) {
        Scene s = at_start;
        s.solver.start_with_fluxes(s.sheet, dt);
    });
    const double degree = std::numbers::pi / 180;
    takes_only("tilt_rad", {-90, 90, "degrees", degree}, [&](double rad) {
        Scene s = at_start;
        s.sheet.tilt_rad = rad;
        s.solver.advance(s.sheet, s.params, 1e-4);
    });
    takes_only("tilt_direction_rad", {-360, 360, "degrees", degree}, [&](double rad) {
        Scene s = at_start;
        s.sheet.tilt_rad = 0.1, s.sheet.tilt_direction_rad = rad;
        s.solver.advance(s.sheet, s.params, 1e-4);
    });
    takes_only("cell_m", {0.01, 100, "mm", 1e-3}, [&](double m) {
        Scene s = at_start;
        s.sheet.geometry.cell_m = m;
        s.solver.advance(s.sheet, s.params, 1e-4);
    });
}

TEST_CASE("what is refused has changed nothing", "[law][water]") {
    Scene s = pool(), twin = pool();
    CHECK(said([&] { s.solver.advance(s.sheet, s.params, std::nan("")); }) != "");
    s.step(0.01), twin.step(0.01);
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i)
            REQUIRE(s.h(i, j) == twin.h(i, j));
}
