// Moments that are kept: what they show is what the sheet was; they stay within their cap.
#include "viewer/studio/glass.h"
#include "viewer/studio/looks.h"
#include "viewer/studio/reference_making.h"
#include "viewer/studio/snapshot_detail.h"
#include "studio_scene.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace tidemark;
using namespace tidemark::tests;
using namespace tidemark::viewer;

namespace {

/// Plays until each of these times and hands the sheet over.
void at_times(const plan::Plan& plan, const std::vector<double>& times, const std::function<void(const sheet::SheetState&)>& f) {
    rehearsal::Rehearsal run(plan, {.cell_m = 2e-3});
    std::size_t k = 0;
    while (k < times.size() && run.step())
        if (run.time_s() >= times[k]) f(run.sheet()), ++k;
}

} // namespace

TEST_CASE("a moment unpacked is what was packed, part by part", "[law][viewer]") {
    const SmallPlan small;
    Reel reel;
    std::vector<Moment> were;
    at_times(*small.plan(), {1, 15, 40, 100, 290, 400, 1500}, [&](const sheet::SheetState& s) {
        were.push_back(snapshot(seen_cells(s)));
        reel.add(seen_cells(s), false);
    });
    REQUIRE(reel.count() == were.size());
    for (const Moment& w : were) {
        const auto is = reel.at(w.time_s + 0.5, all_parts);
        REQUIRE(is);
        CHECK(is->time_s == w.time_s);
        CHECK(is->now_rgb == w.now_rgb);
        CHECK(is->dried_rgb == w.dried_rgb);
        CHECK(is->lstar_code == w.lstar_code);
        CHECK(is->film_code == w.film_code);
        CHECK(is->moisture_code == w.moisture_code);
        CHECK(is->stage == w.stage);
        CHECK(is->load_codes == w.load_codes);
        CHECK(reel.at(w.time_s, part_now)->dried_rgb.empty());
    }
    Reel second;
    second.begin_as(reel, were[3].time_s + 0.5);
    CHECK(second.last_s() == were[3].time_s);
    CHECK(second.at(were[2].time_s + 1, part_now)->now_rgb == were[2].now_rgb);
}

TEST_CASE("a moment holds what the sheet holds, as finely as it says", "[law][viewer]") {
    const SmallPlan small;
    at_times(*small.plan(), {60}, [&](const sheet::SheetState& s) {
        const Moment m = snapshot(seen_cells(s));
        const sheet::Look dried = sheet::look(s, sheet::LookAs::dried);
        double deepest = 0;
        for (int j = 0; j < m.ny; ++j)
            for (int i = 0; i < m.nx; ++i) {
                const std::size_t at = m.at(i, j);
                CHECK(lstar_of(m.lstar_code[at]) == Approx(dried.lstar(i, j)).margin(0.2));
                const double um = s.film_m(i, j) * 1e6;
                if (um > 0.5) CHECK(film_um(m.film_code[at]) == Approx(um).epsilon(0.02));
                deepest = std::max(deepest, um);
            }
        CHECK(deepest > 20);
        double laid = 0, kept = 0;
        for (int j = 0; j < m.ny; ++j)
            for (int i = 0; i < m.nx; ++i) laid += s.pigment_kg_m2(0, i, j) * 1e3 / (m.nx * m.ny);
        for (const std::uint8_t c : m.load_codes[0]) kept += load_g_m2(c) / static_cast<double>(m.load_codes[0].size());
        CHECK(kept == Approx(laid).epsilon(0.03));
    });
}

TEST_CASE("a large sheet is kept with fewer cells, of the same places", "[law][viewer]") {
    SmallPlan small;
    auto plan = std::make_shared<plan::Plan>(*small.plan());
    rehearsal::Rehearsal run(*plan, {.cell_m = 0.14e-3, .until_s = 10.6});
    while (run.step()) {}
    REQUIRE(static_cast<std::int64_t>(run.sheet().geometry.nx) * run.sheet().geometry.ny > most_cells);
    const sheet::SheetState seen = seen_cells(run.sheet());
    CHECK(static_cast<std::int64_t>(seen.geometry.nx) * seen.geometry.ny <= most_cells);
    CHECK(seen.geometry.nx * seen.geometry.cell_m == Approx(0.06).epsilon(0.01));
    const int k = static_cast<int>(std::lround(seen.geometry.cell_m / run.sheet().geometry.cell_m));
    CHECK(k == 2);
    for (int j = 0; j < seen.geometry.ny; j += 17)
        for (int i = 0; i < seen.geometry.nx; i += 17) CHECK(seen.film_m(i, j) == run.sheet().film_m(i * k + k / 2, j * k + k / 2));
}

TEST_CASE("kept moments stay within their cap, and from the first to the last of the run", "[law][viewer]") {
    const SmallPlan small;
    Reel wide, narrow(20'000);
    std::vector<double> times;
    for (double t = 1; t < 1800; t += 20) times.push_back(t);
    at_times(*small.plan(), times, [&](const sheet::SheetState& s) {
        wide.add(seen_cells(s), false), narrow.add(seen_cells(s), false);
        CHECK(narrow.bytes() <= 20'000);
        CHECK(narrow.last_s() == wide.last_s());
    });
    CHECK(wide.bytes() > 40'000);
    CHECK(narrow.count() > 3);
    CHECK(narrow.times_s().front() == wide.times_s().front());
    const double some = narrow.times_s()[narrow.count() / 2];
    CHECK(narrow.at(some, part_now)->now_rgb == wide.at(some, part_now)->now_rgb);
}

TEST_CASE("the next stage is foretold as the kept moments show it", "[law][viewer]") {
    const SmallPlan small;
    const auto run = small.run();
    const Reel& reel = run->reel();
    const std::vector<double> times = reel.times_s();
    int told = 0;
    for (std::size_t k = 0; k < times.size(); k += 5) {
        const auto now = reel.at(times[k], part_water);
        for (const auto& [i, j] : {std::pair{3, 3}, {15, 15}, {25, 12}}) {
            std::optional<StageChange> expected;
            for (std::size_t later = k + 1; later < times.size() && !expected; ++later)
                if (const auto m = reel.at(times[later], part_water); m->stage[m->at(i, j)] != now->stage[now->at(i, j)])
                    expected = StageChange{times[later], m->stage[m->at(i, j)]};
            const auto said = reel.next_stage(i, j, times[k]);
            REQUIRE(said.has_value() == expected.has_value());
            if (!said) continue;
            ++told;
            CHECK(said->stage == expected->stage);
            CHECK(said->time_s == Approx(expected->time_s).margin(0.2));
        }
    }
    CHECK(told > 10);
}

TEST_CASE("looks: greys by lightness, groups by the reference, a difference that says which way", "[law][viewer]") {
    const SmallPlan small;
    const auto plan = small.plan();
    const auto reference = values_of_reference(*plan);
    REQUIRE(reference);
    const auto run = small.run();
    const auto end = run->reel().at(1e9, all_parts);
    REQUIRE(end);
    const LookAt at{&*reference};
    const Pixels values = pixels_of(*end, LookKind::values, at), groups = pixels_of(*end, LookKind::groups, at), difference = pixels_of(*end, LookKind::difference, at);
    std::set<int> greys;
    const auto& of_reference = reference->map(end->nx, end->ny);
    for (std::size_t k = 0; k < end->lstar_code.size(); ++k) {
        CHECK(values.rgba[4 * k] == values.rgba[4 * k + 2]);
        greys.insert(groups.rgba[4 * k]);
        const float off = lstar_of(end->lstar_code[k]) - of_reference.lstar[k];
        const int tone = difference.rgba[4 * k + 1];
        if (off > 8) CHECK(tone > 125);
        if (off < -8) CHECK(tone < 115);
        for (std::size_t other = 0; other < k; other += 37)
            if (end->lstar_code[k] > end->lstar_code[other]) CHECK(values.rgba[4 * k] >= values.rgba[4 * other]);
    }
    CHECK(greys.size() <= 2); // the reference has two values
    const auto wet = run->reel().at(40, all_parts);
    const Pixels water = pixels_of(*wet, LookKind::water, at), none = pixels_of(*run->reel().at(0, all_parts), LookKind::water, at);
    CHECK(water.rgba[4 * wet->at(15, 5)] < none.rgba[4 * wet->at(15, 5)]); // wetter is darker
    CHECK_THROWS_AS(pixels_of(*end, LookKind::difference, {}), grid::InternalError);
    // What a change did: nothing is the grey of no difference; where it is darker than before, darker than that.
    const Pixels same = pixels_of_change(*end, *end), laid = pixels_of_change(*end, *run->reel().at(0, all_parts));
    const Pixels back = pixels_of_change(*run->reel().at(0, all_parts), *end);
    for (std::size_t k = 0; k < end->lstar_code.size(); ++k) {
        CHECK(same.rgba[4 * k + 1] == same.rgba[1]);
        CHECK(laid.rgba[4 * k + 1] < same.rgba[1]); // paint on bare paper
        CHECK(back.rgba[4 * k + 1] > same.rgba[1]);
    }
    CHECK_THROWS_AS(pixels_of(*run->reel().at(0, part_now), LookKind::water, at), grid::InternalError);
    const Pixels seen = reference_pixels(*plan, *reference, LookKind::now, 30, 20);
    CHECK(seen.rgba[0] == 220);
    CHECK(seen.rgba[4 * 29 * 20] == 90);
}

TEST_CASE("the glass says in words and numbers what lies under it", "[behaviour][viewer]") {
    const SmallPlan small;
    const auto run = small.run();
    const auto wet = under_glass(*run, 30, 30, 10);
    REQUIRE(wet);
    CHECK(wet->stage == 0);
    CHECK(wet->film_um > 5);
    CHECK(wet->next_stage_min > 0);
    CHECK(wet->words.find("wet and shining; moist in about") == 0);
    const auto dry = under_glass(*run, 1e9, 30, 30);
    REQUIRE(dry);
    CHECK(dry->stage == 3);
    CHECK(dry->next_stage_min < 0);
    CHECK(dry->words == "dry");
    CHECK(dry->lstar < wet->lstar);
    REQUIRE_FALSE(dry->pigments_g_m2.empty());
    CHECK(dry->pigments_g_m2[0].first == "PBk9");
    CHECK(dry->areas == std::vector<std::string>{"hills"});
    CHECK(under_glass(*run, 1e9, 30, 5)->areas.empty());
    const auto edge = under_glass(*run, 1e9, 30, 20.5);
    REQUIRE(edge);
    CHECK(edge->edge_between == "hills | sky");
    CHECK_FALSE(edge->edge.empty());
    CHECK(under_glass(*run, 1e9, 30, 35)->edge.empty());
    CHECK_FALSE(under_glass(*run, 0, 61, 5));
    CHECK_FALSE(under_glass(*run, 0, NAN, 5));
}
