// A plan made from a picture with the mouse: masses merged, split, named, their edges changed, then a plan to open.
#include "viewer/studio/making.h"
#include "studio_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::tests;
using namespace tidemark::viewer;

namespace {

/// A light sky, a grey hill to the left, a dark one to the right: 280 × 187 mm.
std::filesystem::path three_values(const TemporaryFolder& folder) {
    grid::Picture p{300, 200, std::vector<std::uint8_t>(3 * 300 * 200, 235)};
    for (int y = 100; y < 200; ++y)
        for (int x = 0; x < 300; ++x)
            for (int c = 0; c < 3; ++c) p.at(x, y)[c] = x < 150 ? 140 : 40;
    return folder.put("hills.png", grid::png_bytes(p));
}

struct Table {
    TemporaryFolder folder;
    Making making{three_values(folder)};
    Table() {
        setenv("TIDEMARK_PRESETS", TIDEMARK_PRESETS_DIR, 1);
        REQUIRE(settled());
        REQUIRE(making.problem().empty());
        REQUIRE(making.found());
    }
    bool settled() const {
        return becomes([&] { return !making.busy(); });
    }
    int sky() const { return making.mass_at(140, 20); }
    int grey() const { return making.mass_at(60, 150); }
    int dark() const { return making.mass_at(220, 150); }
    int group(int number) const {
        for (const auto& m : making.found()->masses.list)
            if (m.number == number) return m.group;
        return -1;
    }
};

} // namespace

TEST_CASE("a picture's masses are merged, split, pushed and named, and all of it is undone", "[behaviour][viewer]") {
    Table t;
    Making& m = t.making;
    REQUIRE(m.found()->masses.list.size() == 3);
    const int sky = t.sky(), grey = t.grey(), dark = t.dark();
    CHECK(t.group(sky) == 2);
    CHECK(t.group(dark) == 0);
    CHECK(m.mass_at(-1, 20) == 0);
    CHECK(m.mass_at(281, 20) == 0);
    m.push(dark, 1); // into the grey one's group: they touch, so they are one
    REQUIRE(t.settled());
    CHECK(t.grey() == t.dark());
    m.undo();
    m.name(grey, "hill");
    m.merge(grey, dark);
    REQUIRE(t.settled());
    CHECK(t.grey() == t.dark());
    CHECK(m.found()->masses.list.size() == 2);
    m.split(t.grey(), 140, 80, 140, 200);
    REQUIRE(t.settled());
    CHECK(m.problem().empty());
    CHECK(t.grey() != t.dark());
    m.merge(sky, 99);
    REQUIRE(t.settled());
    CHECK(m.problem().find("99") != std::string::npos);
    CHECK(m.found()->masses.list.size() == 3);
    for (int k = 0; k < 3; ++k) m.undo();
    REQUIRE(t.settled());
    CHECK_FALSE(m.can_undo());
    CHECK(m.problem().empty());
    CHECK(m.found()->masses.list.size() == 3);
    CHECK(std::all_of(m.found()->names.begin(), m.found()->names.end(), [](const auto& n) { return n.empty(); }));
    m.redo();
    REQUIRE(t.settled());
    CHECK(std::count(m.found()->names.begin(), m.found()->names.end(), "hill") == 1);
    CHECK_FALSE(m.pixels().rgba.empty());
}

TEST_CASE("a mass takes what is brushed or lassoed, and names stay where they were", "[behaviour][viewer]") {
    Table t;
    Making& m = t.making;
    m.name(t.grey(), "hill");
    REQUIRE(t.settled());
    const int hill_group = t.group(t.grey());
    m.brush(t.grey(), {{60, 95}, {100, 60}}, 6); // up into the sky, joined to the hill
    REQUIRE(t.settled());
    CHECK(m.mass_at(100, 60) == t.grey());
    CHECK(t.group(m.mass_at(100, 60)) == hill_group);
    CHECK(m.mass_at(100, 45) == t.sky());
    m.lasso(t.sky(), {{200, 150}, {260, 150}, {260, 180}, {200, 180}});
    REQUIRE(t.settled());
    CHECK(t.group(m.mass_at(230, 165)) == 2);
    CHECK(t.group(m.mass_at(190, 165)) == 0);
    const auto& found = *m.found();
    for (std::size_t k = 0; k < found.names.size(); ++k)
        if (!found.names[k].empty()) CHECK(found.masses.list[k].number == t.grey());
    CHECK(std::count(found.names.begin(), found.names.end(), "hill") == 1);
    m.lasso(t.sky(), {{1, 1}, {2, 2}});
    REQUIRE(t.settled());
    CHECK_FALSE(m.problem().empty());
    m.undo(), m.undo();
    REQUIRE(t.settled());
    CHECK(m.mass_at(100, 60) == t.sky());
}

TEST_CASE("the plan written from the masses on the table can be opened, and no other is written over", "[behaviour][viewer]") {
    Table t;
    Making& m = t.making;
    m.name(t.dark(), "rock");
    m.lasso(t.grey(), {{150, 100}, {180, 100}, {180, 187}, {150, 187}}); // a strip of the dark becomes grey
    m.write_plan(t.folder.path() / "plan");
    REQUIRE(t.settled());
    REQUIRE(m.problem().empty());
    CHECK(m.writing() < 0);
    REQUIRE(m.written() == t.folder.path() / "plan" / "plan.toml");
    const auto presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    const plan::Plan plan = plan::read_plan(m.written(), presets);
    CHECK(plan.width_m == Approx(0.280));
    CHECK(plan.steps.size() >= 3);
    const int rock = plan.area_index("rock");
    REQUIRE(rock >= 0);
    const auto& mask = plan.areas[static_cast<std::size_t>(rock)].mask;
    const auto at = [&](double x_mm, double y_mm) { return mask.at(static_cast<int>(x_mm / 280 * mask.width), static_cast<int>(y_mm / 187 * mask.height)); };
    CHECK(at(230, 150) > 0.5f);
    CHECK(at(165, 150) < 0.5f); // what was taken from it
    m.write_plan(t.folder.path() / "plan");
    REQUIRE(t.settled());
    CHECK(m.problem().find("already") != std::string::npos);
    CHECK(m.written().empty());
}

TEST_CASE("what is no picture is said to be none", "[wrong][viewer]") {
    const TemporaryFolder folder;
    CHECK_THROWS_AS(Making(folder.path() / "nothing.png"), grid::BadInput);
    Making torn(folder.put("torn.png", std::string("not a picture")));
    CHECK(becomes([&] { return !torn.busy(); }));
    CHECK(torn.problem().find("torn.png") != std::string::npos);
    CHECK_FALSE(torn.found());
    torn.merge(1, 2); // nothing to merge: no harm
    CHECK(becomes([&] { return !torn.busy(); }));
    CHECK_FALSE(torn.found());
}
