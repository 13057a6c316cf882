// A drop of clean water that falls into a wash. While the wash is full it only thins it; when the sheen is going it
// pushes the paint before it, into a lobed dark rim round a paler middle; on a dry wash it leaves a small ring of its own
// (common practice). No term knows of blooms: water runs where the film still is, lifts what has settled and what soaks
// out of the paper, and sets it down where it comes to rest.
#include <catch2/catch.hpp>

#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"

#include <array>
#include <fmt/core.h>
#include <map>

using namespace tidemark;
using plan::Stage;

namespace {

constexpr double side_m = 0.042;

rehearsal::Rehearsal washed(double cell_m, double drop_after_min, bool drop = true, const char* pigment = "PB60",
                            double percent = 0.5) {
    plan::Plan p = scene::small_sheet({{pigment, percent}});
    p.width_m = p.height_m = side_m;
    scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 120e-6, .pace_m2_s = 10e-4});
    const int spot = scene::add_band(p, "spot", 0.016, 0.026, 0.016);
    if (drop)
        scene::add_step(p, "drop", 3 + 60 * drop_after_min,
                        plan::Charge{.area = spot, .mix = 0, .count = 1, .drop_m3 = 15e-9, .drop_radius_m = 3e-3});
    return scene::played(p, cell_m);
}

/// L* against the same wash without a drop, by distance from where it fell, less what it is far from it: water that has
/// thinned one place has made the rest of so small a sheet stronger.
struct Bloom {
    Stage met = Stage::wet;
    std::vector<double> by_mm; ///< mean over rings of 1 mm
    double middle_L = 0;       ///< palest ring
    double rim_L = 0, rim_mm = 0; ///< darkest ring
    double lobes_mm = 0;       ///< standard deviation, over 24 directions, of where it is darkest
};

Bloom bloom_of(const rehearsal::Rehearsal& run, const sheet::Look& without) {
    const auto look = sheet::look(run.sheet(), sheet::LookAs::dried);
    const auto& g = run.sheet().geometry;
    const sheet::ActRecord& drop = run.record().acts.at(1);
    double ci = 0, cj = 0, cells = 0;
    std::array<int, 4> met{};
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i)
            if (drop.cells.touched(i, j)) ci += i, cj += j, ++cells, ++met[static_cast<int>(drop.cells.met(i, j))];
    ci /= cells, cj /= cells;
    constexpr int rings = 17, directions = 24;
    std::vector<double> sum(rings), count(rings);
    std::vector<std::array<double, 2>> darkest(directions, {0, 0}); // L*, mm
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) {
            const double x = i - ci, y = j - cj, mm = std::hypot(x, y) * g.cell_m * 1e3, d = look.lstar(i, j) - without.lstar(i, j);
            if (mm >= rings) continue;
            sum[static_cast<int>(mm)] += d, ++count[static_cast<int>(mm)];
            auto& dark = darkest[static_cast<int>((std::atan2(y, x) / (2 * M_PI) + 1) * directions) % directions];
            if (d < dark[0]) dark = {d, mm};
        }
    Bloom b;
    b.met = static_cast<Stage>(std::max_element(met.begin(), met.end()) - met.begin());
    for (int r = 0; r < rings; ++r) b.by_mm.push_back(sum[r] / count[r]);
    const double far = 0.5 * (b.by_mm[rings - 1] + b.by_mm[rings - 2]);
    for (double& l : b.by_mm) l -= far;
    const auto rim = std::min_element(b.by_mm.begin(), b.by_mm.end());
    b.rim_L = *rim, b.rim_mm = static_cast<double>(rim - b.by_mm.begin()) + 0.5;
    b.middle_L = *std::max_element(b.by_mm.begin(), b.by_mm.end());
    double mean = 0, square = 0;
    for (const auto& d : darkest) mean += d[1] / directions, square += d[1] * d[1] / directions;
    b.lobes_mm = std::sqrt(std::max(0.0, square - mean * mean));
    return b;
}

std::string row_of(const Bloom& b, double cell_m, double minutes) {
    std::string row = fmt::format("{:.1f} mm cells, after {:g} min, {:5} rim {:+.1f} at {} mm, lobes {:.1f} mm:", cell_m * 1e3,
                                  minutes, plan::word(b.met), b.rim_L, b.rim_mm, b.lobes_mm);
    for (const double l : b.by_mm) row += fmt::format(" {:+.1f}", l);
    return row + "\n";
}

std::vector<std::string> captions_of(const Bloom& b, double minutes) {
    return {fmt::format("after {:g} min, on {} paper", minutes, plan::word(b.met)),
            fmt::format("middle {:+.1f} L*, rim {:+.1f} at {:g} mm", b.middle_L, b.rim_L, b.rim_mm)};
}

} // namespace

TEST_CASE("clean water thins a wet wash, blooms in a moist one, leaves a ring on a dry one", "[behaviour][rehearsal]") {
    const std::map<const char*, double> moments{{"a: wet", 0.5}, {"b: moist", 6}, {"c: damp", 40}, {"d: dry", 180}}; // min
    std::string table = "a drop of clean water in a wash, change of L* by mm from its middle\n";
    for (const double cell_m : {1e-3, 0.5e-3}) {
        scene::ContactSheet sheet(fmt::format("bloom-{:.2g}mm", cell_m * 1e3), 4, 8);
        const auto without = sheet::look(washed(cell_m, 0, false).sheet(), sheet::LookAs::dried);
        std::map<Stage, Bloom> at;
        for (const auto& [name, minutes] : moments) {
            const auto run = washed(cell_m, minutes);
            const Bloom b = bloom_of(run, without);
            at[b.met] = b;
            table += row_of(b, cell_m, minutes);
            sheet.add(run.sheet(), captions_of(b, minutes));
        }
        sheet.write();
        INFO(table);
        REQUIRE(at.size() == 4); // one in each stage
        const Bloom &wet = at[Stage::wet], &moist = at[Stage::moist], &damp = at[Stage::damp], &dry = at[Stage::dry];
        CHECK(wet.middle_L > 10); // thinned
        CHECK(wet.rim_L > -0.5);  // and no more
        CHECK(moist.rim_L < -1);
        CHECK(moist.middle_L > 2);
        CHECK(moist.rim_mm > 6); // pushed well beyond the drop, 3 mm
        CHECK(moist.lobes_mm > 0.5);
        for (const Bloom* ring : {&damp, &dry}) { // a ring of its own, where the drop stood
            CHECK(ring->rim_L < -0.1);
            CHECK(ring->rim_mm < 6);
            CHECK(ring->rim_L > moist.rim_L);
        }
        CHECK(moist.rim_L < 3 * wet.rim_L);
    }
    fmt::print("{}", table);
}

// Ultramarine flocs sink through such a film in ten seconds, so that a drop into the full wash finds them lying and finds
// little to thin; what the sheen's last water does when more runs in takes them along (a backwash, common practice).
TEST_CASE("a backwash carries settled grains off while the paint is moist, not when damp or dry", "[behaviour][rehearsal]") {
    std::string table = "a drop of clean water in a settled wash of PB29, change of L* by mm from its middle\n";
    for (const double cell_m : {1e-3, 0.5e-3}) {
        scene::ContactSheet sheet(fmt::format("backwash-{:.2g}mm", cell_m * 1e3), 4, 8);
        const auto washed_blue = [cell_m](double minutes, bool drop = true) { return washed(cell_m, minutes, drop, "PB29", 1.5); };
        const auto bare = washed_blue(0, false);
        const auto without = sheet::look(bare.sheet(), sheet::LookAs::dried);
        sheet.add(bare.sheet(), {"no drop"});
        std::map<Stage, Bloom> at;
        for (const double minutes : {6.0, 40.0, 180.0}) {
            const auto run = washed_blue(minutes);
            const Bloom b = bloom_of(run, without);
            at[b.met] = b;
            table += row_of(b, cell_m, minutes);
            sheet.add(run.sheet(), captions_of(b, minutes));
        }
        sheet.write();
        INFO(table);
        REQUIRE(at.size() == 3);
        const Bloom& moist = at[Stage::moist];
        CHECK(moist.by_mm[3] > 0.5); // at the drop's border
        CHECK(moist.rim_L < -0.2);
        CHECK(moist.rim_mm > 4);
        for (const Stage later : {Stage::damp, Stage::dry})
            for (int mm = 3; mm < 15; ++mm) {
                INFO(plan::word(later) << ", " << mm << " mm");
                CHECK(std::abs(at[later].by_mm[mm]) < 0.3);
            }
    }
    fmt::print("{}", table);
}
