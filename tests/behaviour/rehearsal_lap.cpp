// A ring painted from one point: at its end the hand meets its own beginning. While that is wet the two run together; where
// it has lost its water, the fresh paint overlaps it and stops at its edge: a lap mark, a dark line (common practice).
#include <catch2/catch.hpp>

#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"

#include <array>
#include <fmt/core.h>

using namespace tidemark;
using plan::Stage;

namespace {

constexpr double inner_mm = 20, outer_mm = 34, half_mm = 38;

/// Across the seam at (x, y) from the ring's centre: y > 0 was painted first, y < 0 last.
bool at_seam(double x_mm, double y_mm, double from_mm, double to_mm) {
    const double r = std::hypot(x_mm, y_mm);
    return x_mm > 0 && r > inner_mm + 4 && r < outer_mm - 4 && y_mm > from_mm && y_mm < to_mm;
}

plan::Plan ring(double pace_mm2_s, const char* room) {
    plan::Plan p = scene::small_sheet({{"PB60", 0.4}});
    p.width_m = p.height_m = 2e-3 * half_mm;
    p.room = *materials::Presets::read(TIDEMARK_PRESETS_DIR).room(room);
    const int n = 304;
    grid::GreyPicture mask, order;
    mask.width = mask.height = order.width = order.height = n;
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i) {
            const double x = ((i + 0.5) * 2 / n - 1) * half_mm, y = ((j + 0.5) * 2 / n - 1) * half_mm, r = std::hypot(x, y);
            const double turn = std::atan2(y, x) / (2 * M_PI);
            mask.value.push_back(r > inner_mm && r < outer_mm ? 1.0f : 0.0f);
            order.value.push_back(static_cast<float>(turn < 0 ? turn + 1 : turn));
        }
    p.areas.push_back({.name = "ring", .file = "ring", .mask = mask});
    plan::Wash wash{.area = 0, .mix = 1, .film_m = 180e-6, .pace_m2_s = pace_mm2_s * 1e-6, .travel = plan::Travel::order};
    wash.order = order;
    scene::add_step(p, "ring", 0, wash);
    return p;
}

struct Lap {
    double minutes = 0;       ///< until the ring was closed
    Stage met = Stage::wet;   ///< what most of its beginning had come to by then
    double left_behind_mm = 0; ///< of wet edge, as the rehearsal warns of it
    double line_L = 0;        ///< how much darker the overlap is than the ring beyond it
};

/// Mean over the cells of the seam from from_mm to to_mm.
template <class F> double mean_at(const sheet::Geometry& g, double from_mm, double to_mm, F&& f) {
    double sum = 0, n = 0;
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i)
            if (at_seam((i + 0.5) * g.cell_m * 1e3 - half_mm, (j + 0.5) * g.cell_m * 1e3 - half_mm, from_mm, to_mm))
                sum += f(i, j), ++n;
    return sum / n;
}

Lap lap_of(rehearsal::Rehearsal& run) {
    Lap lap;
    const auto& g = run.sheet().geometry;
    while (run.step()) {
        const auto& s = run.sheet();
        if (!run.acting()) continue;
        const auto rule = sheet::stage_rule(s);
        std::array<double, 4> share{};
        for (int k = 0; k < 4; ++k)
            share[k] = mean_at(g, 2, 4, [&](int i, int j) {
                return static_cast<int>(sheet::stage_of(rule, s.film_m(i, j), static_cast<float>(s.front_kg_m2(i, j)))) == k;
            });
        if (s.time_s > 10) lap.met = static_cast<Stage>(std::max_element(share.begin(), share.end()) - share.begin());
    }
    const sheet::ActRecord& wash = run.record().acts.at(0);
    lap.minutes = (wash.end_s - wash.start_s) / 60;
    lap.left_behind_mm = static_cast<double>(wash.left_behind.faces) * g.cell_m * 1e3;
    const auto look = sheet::look(run.sheet(), sheet::LookAs::dried);
    const auto lstar = [&](int i, int j) { return look.lstar(i, j); };
    double darkest = 100;
    for (double from = -0.5; from < 2.5; from += 0.5) darkest = std::min(darkest, mean_at(g, from, from + 1, lstar));
    lap.line_L = mean_at(g, 4, 8, lstar) - darkest;
    return lap;
}

} // namespace

TEST_CASE("a ring closed onto its own dried beginning has a lap mark; onto a wet one it has none", "[behaviour][rehearsal]") {
    struct Case {
        const char *name, *room;
        double pace_mm2_s;
    };
    const Case fast{"fast", "dry-heated-studio", 12}, slow{"slow", "dry-heated-studio", 2.5}, humid{"slow, humid", "humid-summer", 2.5};
    std::string table = "a ring painted round to its beginning\n";
    for (const double cell_m : {1e-3, 0.5e-3}) {
        scene::ContactSheet sheet(fmt::format("lap-{:.2g}mm", cell_m * 1e3), 3, 5);
        std::vector<Lap> laps;
        for (const Case& c : {fast, slow, humid}) {
            rehearsal::Rehearsal run(ring(c.pace_mm2_s, c.room), {.cell_m = cell_m});
            const Lap lap = lap_of(run);
            laps.push_back(lap);
            table += fmt::format("{:.1f} mm cells, {:11} closed after {:.1f} min on {} paper: line {:+.1f} L*, wet edge left {:.0f} mm\n",
                                 cell_m * 1e3, c.name, lap.minutes, plan::word(lap.met), lap.line_L, lap.left_behind_mm);
            sheet.add(run.sheet(), {fmt::format("{}: closed after {:.1f} min", c.name, lap.minutes),
                                    fmt::format("on {} paper, line {:+.1f} L*", plan::word(lap.met), lap.line_L)});
        }
        sheet.write();
        INFO(table);
        const Lap &fast_lap = laps[0], &slow_lap = laps[1], &humid_lap = laps[2];
        CHECK(slow_lap.line_L > 6);
        for (const Lap* none : {&fast_lap, &humid_lap}) { // no more than the end of a wash is darker anyway
            CHECK(none->line_L < 3.5);
            CHECK(slow_lap.line_L > 2.2 * none->line_L);
        }
        CHECK(fast_lap.met == Stage::wet); // the limit is where the stage says so
        CHECK(slow_lap.met == Stage::damp);
        CHECK(humid_lap.met < Stage::damp);
        CHECK(fast_lap.left_behind_mm < 1);
        CHECK(slow_lap.left_behind_mm > std::max(8.0, 1.4 * humid_lap.left_behind_mm));
    }
    fmt::print("{}", table);
}
