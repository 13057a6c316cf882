#include "judge/wants.h"
#include "support/judge_scene.h"

#include <catch2/catch.hpp>

using namespace judge_scene;

namespace {

const judge::Edge& row(const std::vector<judge::Edge>& edges, const std::string& area, const std::string& other) {
    for (const auto& e : edges)
        if (e.area == area && e.neighbour == other)
            return e;
    FAIL("no edge between " << area << " and " << other);
    return edges.front();
}

/// Paper, a dark hill in the lower half with a soft top, a light sky above it, and a round sun reserved in the sky.
Scene landscape(bool mirrored) {
    Scene s = make_scene(120, 90);
    const auto X = [=](double x) { return mirrored ? 120 - x : x; };
    const auto hill_top = [](double x) { return 55 + 8 * std::sin(x / 19); };
    const auto sun = [](double x, double y) { return std::hypot(x - 80, y - 22) - 9; };
    const int sky =
        add_area(s, "sky", [&](double x, double y) { return y < hill_top(X(x)) && y > 4 && sun(X(x), y) > 0; });
    const int hill = add_area(s, "hill", [&](double x, double y) { return y >= hill_top(X(x)); });
    add_wash(s, "first light", sky), add_wash(s, "dusk", hill);
    paint(s, [&](double x, double y) {
        const double below = y - hill_top(X(x)), top = blurred_step(y - 4, 0, 95, 80);
        const double ground = blurred_step(below, 1.5, top, 45);
        return blurred_step(sun(X(x), y), 0.5, 95, ground);
    });
    return s;
}

} // namespace

TEST_CASE("each wash has a row for every neighbour, and paper is one", "[law][judge]") {
    const auto edges = landscape(false).edges();
    REQUIRE(edges.size() == 3);
    CHECK(row(edges, "sky", "paper").step == 0);
    CHECK(row(edges, "sky", "paper").word == "hard");
    CHECK(row(edges, "sky", "paper").length_mm == Approx(120 + 2 * 3.1416 * 9).epsilon(0.03));
    CHECK(row(edges, "sky", "hill").word == "soft");
    CHECK(row(edges, "hill", "sky").step == 1);
    CHECK(row(edges, "hill", "sky").width_mm == Approx(row(edges, "sky", "hill").width_mm).epsilon(0.05));
    CHECK(row(edges, "hill", "sky").delta_L == Approx(35).margin(1));
}

TEST_CASE("a mirrored sheet has the same edges", "[law][judge]") {
    const auto a = landscape(false).edges(), b = landscape(true).edges();
    REQUIRE(a.size() == b.size());
    for (const auto& e : a) {
        const auto& m = row(b, e.area, e.neighbour);
        CHECK(m.length_mm == Approx(e.length_mm).margin(1)); // points 0.5 mm apart, begun at either end
        CHECK(m.width_mm == Approx(e.width_mm).epsilon(0.02));
        CHECK(m.delta_L == Approx(e.delta_L).margin(0.2));
        CHECK(m.rim_L == Approx(e.rim_L).margin(0.2));
        CHECK(m.word == e.word);
    }
}

TEST_CASE("wishes find their edge by area or step, in either order, and paper by its name", "[law][judge]") {
    Scene s = landscape(false);
    s.plan.wants = {{1, "dusk", "first light", plan::EdgeWord::lost}, {2, "paper", "sky", plan::EdgeWord::firm}};
    const auto edges = s.edges();
    CHECK(row(edges, "sky", "hill").wanted == "lost");
    CHECK(row(edges, "hill", "sky").wanted == "lost");
    CHECK(row(edges, "sky", "paper").wanted == "firm");
}

TEST_CASE("every wish has its row or the reason why it has none", "[law][judge]") {
    Scene s = landscape(false);
    s.plan.wants = {{1, "dusk", "first light", plan::EdgeWord::soft},
                    {2, "paper", "sky", plan::EdgeWord::firm},
                    {3, "hill", "paper", plan::EdgeWord::hard}};
    const auto edges = s.edges();
    const auto wants = judge::judge_wants(s.plan, s.record, edges);
    REQUIRE(wants.size() == 3);
    REQUIRE(wants[0].edge >= 0);
    CHECK(edges[wants[0].edge].area == "hill"); // the later wash
    CHECK(wants[0].met);
    REQUIRE(wants[1].edge >= 0);
    CHECK_FALSE(wants[1].met);
    CHECK(wants[1].reason.empty());
    CHECK(wants[2].edge == -1);
    CHECK_FALSE(wants[2].met);
    CHECK(wants[2].reason.find("no edge of 3 mm or more") == 0);
    s.record.acts.pop_back();
    const auto fewer = judge::judge_wants(s.plan, s.record, s.edges());
    CHECK(fewer[0].reason == "\"dusk\" was not painted in this run");
    CHECK(fewer[1].edge >= 0);
    CHECK(fewer[2].reason == "\"hill\" was not painted in this run");
}

TEST_CASE("a wash over the whole sheet answers to the name of the sheet", "[law][judge]") {
    Scene s = make_scene(60, 40);
    add_wash(s, "tone", plan::whole_sheet);
    add_wash(s, "spot", add_area(s, "disc", [](double x, double y) { return std::hypot(x - 30, y - 20) < 10; }));
    paint(s, [](double x, double y) { return std::hypot(x - 30, y - 20) < 10 ? 50 : 80; });
    s.plan.wants = {{1, "disc", "sheet", plan::EdgeWord::hard}};
    const auto edges = s.edges();
    CHECK(row(edges, "disc", "tone").wanted == "hard");
    CHECK(judge::judge_wants(s.plan, s.record, edges).at(0).met);
}

TEST_CASE("a wash that was not played has no edges and is no neighbour", "[law][judge]") {
    Scene s = landscape(false);
    s.record.acts.pop_back();
    const auto edges = s.edges();
    REQUIRE(edges.size() == 1);
    CHECK(edges[0].neighbour == "paper");
}

TEST_CASE("a glaze inside a wash borders on that wash", "[law][judge]") {
    Scene s = make_scene(80, 80);
    const int inner = add_area(s, "inner", [](double x, double y) { return std::hypot(x - 40, y - 40) < 15; });
    add_wash(s, "ground", plan::whole_sheet), add_wash(s, "glaze", inner);
    paint(s, [](double x, double y) { return std::hypot(x - 40, y - 40) < 15 ? 55 : 75; });
    const auto edges = s.edges();
    REQUIRE(edges.size() == 1); // the whole sheet ends at its border, which is no edge
    CHECK(edges[0].area == "inner");
    CHECK(edges[0].neighbour == "ground");
    CHECK(edges[0].delta_L == Approx(20).margin(0.1));
}

TEST_CASE("masks that overlap by a millimetre still border on each other", "[law][judge]") {
    Scene s = make_scene(80, 60);
    const int left = add_area(s, "left", [](double x, double) { return x < 40.5; });
    const int right = add_area(s, "right", [](double x, double) { return x > 39.5; });
    add_wash(s, "one", left), add_wash(s, "two", right);
    paint(s, [](double x, double) { return x < 39.5 ? 80 : x < 40.5 ? 45 : 55; });
    const auto edges = s.edges();
    REQUIRE(edges.size() == 2);
    CHECK(edges[0].neighbour == "right");
    CHECK(edges[1].neighbour == "left");
    CHECK(edges[1].delta_L == Approx(25).margin(0.5));
}

TEST_CASE("shapes a few cells across are judged without trouble", "[law][judge]") {
    Scene s = make_scene(60, 60);
    const int twig =
        add_area(s, "twig", [](double x, double y) { return std::abs(x - y) < 0.8 && x > 10 && x < 50; });
    const int speck = add_area(s, "speck", [](double x, double y) { return std::hypot(x - 50, y - 10) < 0.4; });
    const int nothing = add_area(s, "nothing", [](double, double) { return false; });
    add_wash(s, "twigs", twig), add_wash(s, "specks", speck), add_wash(s, "none", nothing);
    paint(s, [](double x, double y) { return std::abs(x - y) < 0.8 && x > 10 && x < 50 ? 30 : 95; });
    const auto edges = s.edges();
    REQUIRE_FALSE(edges.empty());
    CHECK(edges[0].area == "twig");
    CHECK(edges[0].word == "hard");
}

TEST_CASE("an edge says what paper its wash met along it", "[law][judge]") {
    Scene s = make_scene(60, 40);
    const int left = add_area(s, "left", [](double x, double) { return x < 30; });
    add_wash(s, "wash", left);
    paint(s, [](double x, double) { return x < 30 ? 50.0f : 90.0f; });
    auto& act = s.record.acts[0];
    CHECK(s.edges().front().met.empty()); // nothing is known of it
    act.cells = {s.geometry.nx, s.geometry.ny};
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < 60; ++i) // far in: wet; at the edge moist, dry
            act.cells.meet(i, j, static_cast<sheet::CellStage>(i < 50 ? 0 : j < 60 ? 1 : 3), 0);
    const auto edges = s.edges();
    CHECK(edges.front().met == "moist");
    CHECK(edges.front().met_share == Approx(0.75).margin(0.03));
}
