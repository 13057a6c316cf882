// An outline falls into stretches where its edge changes; each is measured as one.
#include "support/grain.h"
#include "support/judge_scene.h"

#include <catch2/catch.hpp>

using namespace judge_scene;

namespace {

constexpr double width_over_sd = 2.5631; // 10 to 90 % of a normal distribution

const std::vector<judge::Stretch>& stretches_of(const std::vector<judge::Edge>& edges) {
    REQUIRE(edges.size() == 1);
    return edges[0].stretches;
}

double width_mm(double cell_mm, double true_mm, double grain_L, double grain_mm, unsigned seed) {
    Scene s = tilted_edge(
        17, [&](double d) { return blurred_step(d, true_mm / width_over_sd, 45, 90); }, 100, cell_mm);
    if (grain_L > 0)
        scene::add_grain(s.lstar, cell_mm, grain_L, grain_mm, seed);
    const auto edges = s.edges();
    REQUIRE_FALSE(stretches_of(edges).empty());
    return stretches_of(edges).front().width_mm; // the longest
}

/// Upper half painted; its lower edge is sharp left of the middle and 6 mm wide right of it.
Scene half_and_half(double size_mm, double grain_L, unsigned seed) {
    Scene s = make_scene(size_mm, 60);
    add_wash(s, "wash", add_area(s, "upper", [](double, double y) { return y < 30; }));
    paint(s, [&](double x, double y) {
        return blurred_step(y - 30, x < size_mm / 2 ? 0.0 : 6 / width_over_sd, 50, 90);
    });
    if (grain_L > 0)
        scene::add_grain(s.lstar, 0.5, grain_L, 0.4, seed);
    return s;
}

} // namespace

// Bilinear reading is known exactly and taken off; what stays is that samples lie a cell apart (to 4 % at two cells),
// and of 20 mm, that 30 mm to either side are read: a normal profile is within 0.3 % of its plateau there. Under grain an
// edge of 20 mm on cells of 1 mm is right to 10 %: few cells of plateau are left to tell its ends by.
TEST_CASE("the width of an edge from two cells to 20 mm is right to five per cent", "[law][judge]") {
    for (const double cell_mm : {0.25, 0.5, 1.0})
        for (const double true_mm : {0.5, 1.0, 2.0, 3.0, 5.0, 10.0, 20.0}) {
            if (true_mm < 2 * cell_mm)
                continue; // can't be told
            CAPTURE(cell_mm, true_mm);
            CHECK(width_mm(cell_mm, true_mm, 0, 0, 0) ==
                  Approx(true_mm).epsilon(true_mm < 4 * cell_mm ? 0.07 : 0.05));
            const bool few = cell_mm == 1.0 && true_mm == 20.0;
            CHECK(width_mm(cell_mm, true_mm, 2, 0.3, 4) ==
                  Approx(true_mm).epsilon(few ? 0.1 : true_mm < 4 * cell_mm ? 0.07 : 0.05));
        }
}

// Grains of 2 mm, L* 2 to either side: a hundred millimetres of outline hold fifty of them.
TEST_CASE("coarse grain moves the width of an edge by an eighth at most", "[law][judge]") {
    for (const double true_mm : {1.0, 2.0, 5.0, 10.0, 20.0})
        for (const unsigned seed : {1u, 2u, 3u}) {
            CAPTURE(true_mm, seed);
            CHECK(width_mm(0.5, true_mm, 2, 0.8, seed) == Approx(true_mm).epsilon(0.125));
        }
}

TEST_CASE("a rim has its height and its width, at a lighter and at a darker side", "[law][judge]") {
    for (const double cell_mm : {0.25, 0.5})
        for (const double rim_mm : {1.5, 2.5})
            for (const double outside : {92.0, 62.0}) {
                CAPTURE(cell_mm, rim_mm, outside);
                const auto scene = tilted_edge(
                    25, [=](double d) { return d >= 0        ? outside
                                               : d > -rim_mm ? 50.0
                                                             : 60.0; }, 80, cell_mm);
                const auto edges = scene.edges();
                const judge::Stretch& s = stretches_of(edges).front();
                CHECK(s.rim_L == Approx(10).margin(0.4));
                CHECK(s.rim_mm ==
                      Approx(rim_mm).margin(0.5 * cell_mm)); // where a box begins inside its cell is not known
                CHECK(s.tidemark);
            }
}

TEST_CASE("an edge hard on the left and soft on the right is two stretches, cut within 3 mm of the middle",
          "[law][judge]") {
    for (const double grain_L : {0.0, 2.0}) {
        CAPTURE(grain_L);
        const auto edges = half_and_half(120, grain_L, 5).edges();
        const auto& s = stretches_of(edges);
        REQUIRE(s.size() == 2);
        const auto& hard = s[0].word == "hard" ? s[0] : s[1];
        const auto& soft = s[0].word == "hard" ? s[1] : s[0];
        CHECK(hard.word == "hard");
        CHECK(soft.word == "soft");
        CHECK(soft.width_mm == Approx(6).epsilon(0.07));
        CHECK(hard.middle.x_mm == Approx(30).margin(3));
        CHECK(soft.middle.x_mm == Approx(90).margin(3));
        CHECK(std::max(hard.from.x_mm, hard.to.x_mm) == Approx(60).margin(3));
        CHECK(std::min(soft.from.x_mm, soft.to.x_mm) == Approx(60).margin(3));
        CHECK(hard.share + soft.share == Approx(1).margin(0.01));
        CHECK(hard.side == "bottom");
        CHECK(edges[0].length_mm == Approx(hard.length_mm + soft.length_mm).margin(0.6));
    }
}

TEST_CASE("a closed outline is cut wherever it begins, and one that is alike all round is one stretch",
          "[law][judge]") {
    for (const double turn : {0.0, 1.0, 2.2, 4.5}) { // of the soft half
        CAPTURE(turn);
        Scene s = make_scene(80, 80);
        add_wash(s, "wash", add_area(s, "disc", [](double x, double y) { return std::hypot(x - 40, y - 40) < 22; }));
        paint(s, [&](double x, double y) {
            const bool soft = std::cos(std::atan2(y - 40, x - 40) - turn) > 0;
            return blurred_step(std::hypot(x - 40, y - 40) - 22, soft ? 2.0 : 0.0, 50, 90);
        });
        const auto edges = s.edges();
        const auto& parts = stretches_of(edges);
        REQUIRE(parts.size() == 2);
        CHECK(parts[0].length_mm == Approx(M_PI * 22).margin(3));
        CHECK(parts[0].word != parts[1].word);
    }
    Scene s = make_scene(80, 80);
    add_wash(s, "wash", add_area(s, "disc", [](double x, double y) { return std::hypot(x - 40, y - 40) < 22; }));
    paint(s, [](double x, double y) { return blurred_step(std::hypot(x - 40, y - 40) - 22, 2.0, 50, 90); });
    const auto edges = s.edges();
    REQUIRE(stretches_of(edges).size() == 1);
    CHECK(stretches_of(edges)[0].side == "all round");
}

TEST_CASE("grain cuts no edge that is alike all along", "[law][judge]") {
    int cut = 0;
    for (unsigned seed = 1; seed <= 20; ++seed) {
        Scene s = tilted_edge(
            17, [&](double d) { return blurred_step(d, seed % 2 ? 0.4 : 2.0, 50, 90); }, 100);
        scene::add_grain(s.lstar, 0.5, 2, 0.6, seed);
        const auto edges = s.edges();
        cut += stretches_of(edges).size() > 1;
    }
    CHECK(cut == 0);
}

TEST_CASE("a rim along a part of an edge is a stretch of its own", "[law][judge]") {
    Scene s = make_scene(120, 60);
    add_wash(s, "wash", add_area(s, "upper", [](double, double y) { return y < 30; }));
    paint(s, [](double x, double y) { return y >= 30 ? 90.0 : y > 28 && x > 70 ? 42.0 : 50.0; });
    const auto edges = s.edges();
    const auto& parts = stretches_of(edges);
    REQUIRE(parts.size() == 2);
    CHECK_FALSE(parts[0].tidemark); // the longer one
    CHECK(parts[1].tidemark);
    CHECK(std::min(parts[1].from.x_mm, parts[1].to.x_mm) == Approx(70).margin(3));
}

TEST_CASE("a stretch says when it was laid, on what, beside what, and what came later", "[law][judge]") {
    Scene s = make_scene(120, 60);
    const auto upper = add_area(s, "upper", [](double, double y) { return y < 30; });
    const auto lower = add_area(s, "lower", [](double, double y) { return y >= 30; });
    add_wash(s, "sky", upper), add_wash(s, "hill", lower), add_wash(s, "glaze", upper);
    paint(s, [](double, double y) { return y < 30 ? 80.0 : 50.0; });
    s.record.acts[0].start_s = 0, s.record.acts[1].start_s = 460, s.record.acts[2].start_s = 1200;
    for (auto& act : s.record.acts) {
        const bool up = act.step != 1;
        const auto met = act.step == 0 ? sheet::CellStage::dry : act.step == 1 ? sheet::CellStage::moist : sheet::CellStage::damp;
        act.cells = {s.geometry.nx, s.geometry.ny};
        for (int j = 0; j < s.geometry.ny; ++j)
            for (int i = 0; i < s.geometry.nx; ++i)
                if ((j < 60) == up)
                    act.cells.meet(i, j, met, act.step == 1 ? i / 2 : 5);
    }
    s.record.stages = {{450, upper, {0.2, 0.7, 0.1, 0}}, {450, lower, {0, 0, 0, 1}}, {600, upper, {0, 0, 1, 0}}};
    const auto edges = s.edges();
    REQUIRE(edges.size() == 3);
    const judge::Stretch& hill = edges[1].stretches.at(0);
    CHECK(edges[1].area == "lower");
    CHECK(hill.met == "moist");
    CHECK(hill.met_share == 1);
    CHECK(hill.laid_from_min == Approx(460.0 / 60));
    CHECK(hill.laid_to_min == Approx(579.0 / 60).margin(0.05));
    CHECK(hill.laid_min == Approx(520.0 / 60).margin(0.05));
    CHECK(
        hill.why ==
        "laid from 7:40 to 9:39 on moist paper, when upper was moist; \"glaze\" came up to it at 20:05, when it was "
        "dry; 100 % of the outline of lower");
    CHECK(edges[0].stretches.at(0).why == "laid at 0:05 on dry paper; \"hill\" came up to it at 8:40, when it was "
                                          "moist; washed over at 20:05, when damp "
                                          "(\"glaze\"); 100 % of the outline of upper");
}
