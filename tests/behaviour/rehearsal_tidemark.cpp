// The dark line of a wash that dried from its edge. What is lost at a pinned edge must flow there and brings its pigment
// (Deegan et al. 1997); no edge term draws it here. What weakens it goes against that flow: paper that drinks takes the
// water before the air can (Pack et al. 2015, Langmuir 31, 7953: drops on porous ground ring only with what the pores
// leave to evaporate), so a drier room and a slower paper both make more of it; grains that sink stay where the wash was
// deep; a crowd of grains thickens the mix. By order, not by number.
#include <catch2/catch.hpp>

#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"

#include <fmt/core.h>
#include <map>
#include <string>

using namespace tidemark;

namespace {

/// A generous wash of a fine pigment on the left 30 mm of a sheet of 50 mm.
struct Case {
    const char* name;
    const char* paper = "hot-pressed-300";
    const char* room = "temperate-studio";
    const char* pigment = "PB15:3";
    double percent = 0.5, film_m = 250e-6, sorptivity_share = 1;
    bool wet_surround = false;
};

struct Rim {
    double outer_mm; ///< pigment in the outer millimetre of the wash over that of as much of its middle
    double dark_L;   ///< how much darker the darkest column of the outer 3 mm is than the wash
};

constexpr double edge_m = 30e-3;

double pigment_kg_m2(const sheet::SheetState& s, int i, int j) {
    const auto& p = s.pigments[0];
    return static_cast<double>(p.loose(i, j)) + p.bound(i, j) + p.inside(i, j);
}

Rim rim_of(const sheet::SheetState& s) {
    const double cell_m = s.geometry.cell_m;
    const int from = s.geometry.ny / 4, to = s.geometry.ny - from;
    const auto column = [&](double before_edge_m) { return static_cast<int>(std::lround((edge_m - before_edge_m) / cell_m)); };
    const auto mass = [&](double begin_m, double end_m) {
        double sum = 0;
        for (int i = column(begin_m); i < column(end_m); ++i)
            for (int j = from; j < to; ++j) sum += pigment_kg_m2(s, i, j);
        return sum / ((column(end_m) - column(begin_m)) * (to - from));
    };
    const auto l = scene::lightness_across(s);
    double wash_L = 0;
    for (int i = column(17e-3); i < column(10e-3); ++i) wash_L += l[i] / (column(10e-3) - column(17e-3));
    return {mass(1e-3, 0) / mass(17e-3, 10e-3), wash_L - *std::min_element(&l[column(3e-3)], &l[column(0)])};
}

rehearsal::Rehearsal dried(const Case& c, double cell_m) {
    plan::Plan p = scene::small_sheet({{c.pigment, c.percent}}, c.paper);
    p.width_m = 0.050, p.height_m = 0.016;
    p.room = *materials::Presets::read(TIDEMARK_PRESETS_DIR).room(c.room);
    p.paper.sorptivity_front_m_s05 *= c.sorptivity_share;
    const int left = scene::add_band(p, "left", 0, edge_m), right = scene::add_band(p, "right", edge_m, p.width_m);
    if (c.wet_surround) scene::add_step(p, "wet", 0, plan::Wet{.water_kg_m2 = 0.2, .area = right});
    scene::add_step(p, "wash", 5, plan::Wash{.area = left, .mix = 1, .film_m = c.film_m, .pace_m2_s = 10e-4});
    return scene::played(p, cell_m);
}

constexpr Case cases[] = {
    {.name = "generous"},
    {.name = "cold-pressed", .paper = "cold-pressed-300"},
    {.name = "wet surround", .wet_surround = true},
    {.name = "dry room", .room = "dry-heated-studio"},
    {.name = "humid room", .room = "humid-summer"},
    {.name = "slow paper", .sorptivity_share = 0.5},
    {.name = "quick paper", .sorptivity_share = 2},
    {.name = "thin film", .film_m = 120e-6},
    {.name = "grains that sink", .pigment = "PR101"},
    {.name = "a crowd of grains", .percent = 25},
};

} // namespace

TEST_CASE("a wash on dry paper dries with a dark rim, stronger the less paper and weight take first", "[behaviour][rehearsal]") {
    for (const double cell_m : {1e-3, 0.5e-3}) {
        std::map<std::string, Rim> rims;
        std::string table = fmt::format("rims, cells of {:g} mm: pigment in the outer mm over the wash, how much darker\n", cell_m * 1e3);
        scene::ContactSheet sheet(fmt::format("tidemark-{:g}mm", cell_m * 1e3), 3, 6);
        for (const Case& c : cases) {
            const auto run = dried(c, cell_m);
            const Rim rim = rims[c.name] = rim_of(run.sheet());
            table += fmt::format("  {:18} {:5.2f}  {:5.1f} L*\n", c.name, rim.outer_mm, rim.dark_L);
            sheet.add(run.sheet(), {fmt::format("{}: {} in {:.0f} um", c.name, c.pigment, c.film_m * 1e6),
                                    fmt::format("outer mm {:.2f}, {:.1f} L* darker", rim.outer_mm, rim.dark_L)});
        }
        sheet.write();
        fmt::print("{}", table);
        INFO(table);
        const auto outer = [&](const char* name) { return rims.at(name).outer_mm; };
        CHECK(rims["generous"].dark_L > 2);
        CHECK(rims["cold-pressed"].dark_L > 2);
        CHECK(outer("generous") > 1.15);
        CHECK(outer("cold-pressed") > 1.15);
        CHECK(outer("wet surround") == Approx(1).margin(0.05));
        CHECK(rims["wet surround"].dark_L < 0.5);
        CHECK(outer("dry room") > outer("generous") + 0.1);
        CHECK(outer("humid room") < outer("generous") - 0.1);
        CHECK(outer("slow paper") > outer("generous") + 0.1);
        CHECK(outer("quick paper") < outer("generous") - 0.1);
        CHECK(outer("thin film") < outer("generous") - 0.1);
        CHECK(outer("grains that sink") < outer("generous") - 0.1);
        CHECK(outer("a crowd of grains") < outer("generous") - 0.1);
    }
}

TEST_CASE("the pigment in a rim is the same for cells of 1, 0.5 and 0.25 mm", "[behaviour][rehearsal]") {
    for (const char* paper : {"hot-pressed-300", "cold-pressed-300"}) {
        std::vector<double> outer_mm;
        for (const double cell_m : {1e-3, 0.5e-3, 0.25e-3})
            outer_mm.push_back(rim_of(dried({.name = "generous", .paper = paper}, cell_m).sheet()).outer_mm);
        fmt::print("{}: outer mm {:.2f}, {:.2f}, {:.2f} of the wash\n", paper, outer_mm[0], outer_mm[1], outer_mm[2]);
        CAPTURE(paper, outer_mm[0], outer_mm[1], outer_mm[2]);
        CHECK(outer_mm[0] == Approx(outer_mm[2]).epsilon(0.06));
        CHECK(outer_mm[1] == Approx(outer_mm[2]).epsilon(0.04));
    }
}
