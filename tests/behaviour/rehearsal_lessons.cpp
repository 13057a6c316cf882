// Each lesson (presets/lessons) shows the effect that its page speaks of, played at 1 mm. Two at 0.5 mm: granulation, since
// cells of 1 mm are the mean over more than a valley, and the lesson on edges, since they can't tell hard from firm. What
// the pages say is common practice; how strong an effect must be is what an eye sees on a sheet at arm's length (3 L*,
// judge/edges.h), or an order.
#include "judge/judge_run.h"
#include "plan/read_plan.h"
#include "support/rehearsal_scene.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <fmt/core.h>

using namespace tidemark;

namespace {

/// One sheet of a lesson, dried.
struct Sheet {
    plan::Plan plan;
    rehearsal::Rehearsal run;
    grid::Field<float> lstar;

    explicit Sheet(const std::string& file, double cell_m = 1e-3)
        : plan(plan::read_plan(TIDEMARK_PRESETS_DIR "/lessons/" + file + ".toml", materials::Presets::read(TIDEMARK_PRESETS_DIR))),
          run(scene::played(plan, cell_m)), lstar(sheet::look(run.sheet(), sheet::LookAs::dried).lstar) {
        CHECK(run.record().warnings == std::vector<std::string>{});
    }
    /// L* of all cells within a box, mm.
    std::vector<double> in(double x, double y, double width, double height) const {
        const double cell_mm = run.sheet().geometry.cell_m * 1e3;
        std::vector<double> values;
        for (int j = 0; j < run.sheet().geometry.ny; ++j)
            for (int i = 0; i < run.sheet().geometry.nx; ++i) {
                const double at_x = (i + 0.5) * cell_mm - x, at_y = (j + 0.5) * cell_mm - y;
                if (at_x > 0 && at_y > 0 && at_x < width && at_y < height) values.push_back(lstar(i, j));
            }
        REQUIRE(values.size() > 0);
        return values;
    }
    double L(double x, double y, double width, double height) const {
        const auto values = in(x, y, width, height);
        double sum = 0;
        for (const double v : values) sum += v;
        return sum / static_cast<double>(values.size());
    }
    double spread_L(double x, double y, double width, double height) const {
        const auto values = in(x, y, width, height);
        const double mean = L(x, y, width, height);
        double squares = 0;
        for (const double v : values) squares += (v - mean) * (v - mean);
        return std::sqrt(squares / static_cast<double>(values.size()));
    }
    /// Width of the edge of every stroke against the paper, in the order of the plan, mm.
    std::vector<double> edge_widths_mm() const {
        std::vector<double> widths;
        for (const auto& edge : judge::judge_run(plan, run.record(), lstar, run.sheet().geometry).edges)
            if (edge.neighbour == "paper") widths.push_back(edge.width_mm);
        return widths;
    }
};

} // namespace

TEST_CASE("lesson: an edge is narrower the longer it waits: soft, a little less soft, firm on a moist sheet, hard on a damp one", "[behaviour][rehearsal]") {
    const Sheet sheet("edges/plan", 0.5e-3);
    std::vector<judge::Edge> edges;
    for (const auto& edge : judge::judge_run(sheet.plan, sheet.run.record(), sheet.lstar, sheet.run.sheet().geometry).edges)
        if (edge.neighbour == "paper") edges.push_back(edge);
    REQUIRE(edges.size() == 4);
    const char* const words[] = {"soft", "soft", "firm", "hard"};
    const char* const met[] = {"wet", "moist", "moist", "damp"};
    for (std::size_t k = 0; k < 4; ++k) {
        INFO("stroke " << k + 1 << ", " << edges[k].width_mm << " mm, on " << edges[k].met << " paper");
        CHECK(edges[k].word == words[k]);
        CHECK(edges[k].met == met[k]);
        if (k > 0) CHECK(edges[k].width_mm < edges[k - 1].width_mm);
    }
}

TEST_CASE("lesson: with the back wetted, strokes stay soft that are cut without", "[behaviour][rehearsal]") {
    const Sheet front("back/a"), both("back/b");
    const auto cut = front.edge_widths_mm(), soft = both.edge_widths_mm();
    REQUIRE((cut.size() == 3 && soft.size() == 3));
    INFO("front wetted " << cut[0] << ", " << cut[1] << ", " << cut[2] << "; both " << soft[0] << ", " << soft[1] << ", " << soft[2] << " mm");
    CHECK(cut[0] > 3);
    for (int k = 1; k < 3; ++k) {
        CHECK(cut[k] < 1);
        CHECK(soft[k] > 3);
    }
    CHECK(both.run.record().end_s > front.run.record().end_s + 3600); // hours more
}

TEST_CASE("lesson: a drop thins the full film, blooms in the broken sheen, leaves a ring on what has set", "[behaviour][rehearsal]") {
    const Sheet sheet("bloom/plan");
    const auto rings = [&](int patch) { // L* by mm from the drop's middle, less that of the wash far away
        const double x = 4 + 41 * patch + 18.5, y = 23, cell_mm = sheet.run.sheet().geometry.cell_m * 1e3;
        std::array<double, 17> sum{}, n{};
        for (int j = 0; j < sheet.run.sheet().geometry.ny; ++j)
            for (int i = 0; i < sheet.run.sheet().geometry.nx; ++i) {
                const double mm = std::hypot((i + 0.5) * cell_mm - x, (j + 0.5) * cell_mm - y);
                if (mm < 17) sum[static_cast<int>(mm)] += sheet.lstar(i, j), ++n[static_cast<int>(mm)];
            }
        for (int k = 0; k < 17; ++k) sum[k] /= n[k];
        const double wash = sheet.L(4 + 41 * 3 + 3, 7, 6, 32); // of the patch that nothing reached
        for (double& l : sum) l -= wash;
        return sum;
    };
    std::array<std::array<double, 17>, 4> at{}; // drop, mm
    std::string table;
    for (int drop = 0; drop < 4; ++drop) {
        at[drop] = rings(drop);
        table += fmt::format("drop {}:", drop + 1);
        for (const double l : at[drop]) table += fmt::format(" {:+.1f}", l);
        table += "\n";
    }
    INFO(table);
    CHECK(at[0][0] > 10);
    for (int mm = 6; mm < 17; ++mm) CHECK(at[0][mm] < at[0][mm - 1]); // thinner from the middle outwards, no rim
    const double palest = *std::max_element(at[1].begin(), at[1].end());
    CHECK(palest < 0.25 * at[0][0]); // the full film's thinning is over
    CHECK(at[1][9] > 0.5 * palest);  // and what is left of it runs wide
    const auto rim = std::min_element(at[2].begin() + 6, at[2].end());
    CHECK(*rim < -3); // a bloom: a rim
    CHECK(rim - at[2].begin() < 12);
    CHECK(*std::max_element(at[2].begin(), rim) > 5); // round what was carried off
    for (int mm = 13; mm < 17; ++mm) CHECK(std::abs(at[2][mm]) < 0.5); // in a wash that knows nothing of it
    for (int mm = 8; mm < 17; ++mm) CHECK(std::abs(at[3][mm]) < 1);     // it stays where it fell
}

TEST_CASE("lesson: a juicy wash on dry paper gets a tidemark, a lean one and one in wet paper none", "[behaviour][rehearsal]") {
    const Sheet sheet("tidemark/plan");
    const auto rim_L = [&](double left_mm) { // darker than the middle: the darkest millimetre of the outer three, left side
        double rim = 0;
        for (int k = 0; k < 3; ++k) rim = std::max(rim, sheet.L(left_mm + 12, 20, 12, 20) - sheet.L(left_mm + k, 20, 1, 20));
        return rim;
    };
    INFO("juicy " << rim_L(8) << ", lean " << rim_L(56) << ", in wet paper " << rim_L(104));
    CHECK(rim_L(8) > 10);
    CHECK(rim_L(56) < 2);
    CHECK(rim_L(104) < 1);
}

TEST_CASE("lesson: a band that goes on at once joins, later it shows where it was left", "[behaviour][rehearsal]") {
    const Sheet sheet("lap/plan");
    std::array<double, 4> mark_L{};
    for (int band = 0; band < 4; ++band) {
        const double y = 7 + 19 * band + 3;
        for (double x = 55; x < 75; x += 1) mark_L[band] = std::max(mark_L[band], std::abs(sheet.L(x, y, 1, 7) - sheet.L(x + 2, y, 1, 7)));
    }
    INFO("marks " << mark_L[0] << ", " << mark_L[1] << ", " << mark_L[2] << ", " << mark_L[3] << " L*");
    CHECK(mark_L[0] < 1.5);
    CHECK(mark_L[1] < 3);
    CHECK(mark_L[2] > 3);
    CHECK(mark_L[3] > 5);
}

TEST_CASE("lesson: a bead darkens the low edge of a tilted board, less when it is picked up, not on a level one", "[behaviour][rehearsal]") {
    const Sheet level("bead/a"), tilted("bead/b");
    const auto darker = [](const Sheet& s, double left_mm) { return s.L(left_mm + 6, 12, 18, 10) - s.L(left_mm + 6, 35, 18, 9); };
    INFO("level " << darker(level, 8) << ", " << darker(level, 46) << "; tilted " << darker(tilted, 8) << ", " << darker(tilted, 46) << " L*");
    for (const double left_mm : {8.0, 46.0}) CHECK(std::abs(darker(level, left_mm)) < 2);
    CHECK(darker(tilted, 8) > 5);
    CHECK(darker(tilted, 46) > darker(tilted, 8) + 5);
}

TEST_CASE("lesson: rough paper mottles ultramarine and sienna, leaves phthalo flat; smooth paper leaves all flat", "[behaviour][rehearsal]") {
    const Sheet smooth("granulation/a", 0.5e-3), rough("granulation/b", 0.5e-3);
    for (const double x : {6.0, 44.0, 82.0}) {
        const double on_smooth = smooth.spread_L(x + 8, 18, 16, 24), on_rough = rough.spread_L(x + 8, 18, 16, 24);
        INFO("patch at " << x << " mm: smooth " << on_smooth << ", rough " << on_rough << " L*");
        CHECK(on_smooth < 1.2);
        if (x < 80) CHECK(on_rough > 3);
        else CHECK(on_rough < 1);
    }
}

TEST_CASE("lesson: blue over yellow is darkest, yellow over blue palest, the mix between", "[behaviour][rehearsal]") {
    const Sheet sheet("glaze/plan");
    const double blue_on_top = sheet.L(12, 26, 18, 18), yellow_on_top = sheet.L(68, 26, 18, 18), mixed = sheet.L(118, 26, 20, 18);
    INFO(blue_on_top << ", " << mixed << ", " << yellow_on_top << " L*");
    CHECK(blue_on_top < mixed - 3);
    CHECK(mixed < yellow_on_top - 3);
}
