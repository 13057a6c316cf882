// One connected shape, a ring, led round from a start point until the hand is back at it: while that first edge is wet,
// the ends run together; once it has no film, the last paint stands at it and dries there as a lap (common practice: a
// wash is worked from its wet edge). The time one has is the paper's and the room's, and the program's own word for it,
// the edge left behind, has to come with the edge that has no film.
#include <catch2/catch.hpp>

#include "sheet/stage.h"
#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"

#include <algorithm>
#include <fmt/core.h>
#include <string>
#include <vector>

using namespace tidemark;

namespace {

constexpr double side_m = 0.030, middle_m = side_m / 2, radius_m = 10e-3, width_m = 6e-3; // ring from 7 to 13 mm
constexpr double mark_m = 12e-3;  // of the brush: wider than the ring
constexpr double wash_at_s = 300; // after the ring was dampened
constexpr int bins = 60;          // along the ring, 1.05 mm each
constexpr int seam_bins = 8;      // to either side: where the two paints meet wanders while both are wet
constexpr double lap_from_L = 3;       // as a dark line does (judge/edges.h)
constexpr double none_elsewhere_L = 2; // and the ring itself is even

enum class Way { round, both }; // one way round; outwards from the start point to both sides

struct Case {
    const char* room;
    double minutes; ///< that the hand takes
    bool dampened = true;
    Way way = Way::round;
};
const char* paper(const Case& c) { return c.dampened ? "dampened" : "dry paper"; }
const char* way(const Case& c) { return c.way == Way::round ? "round" : "both ways"; }

/// The start point lies to the right of the middle; the hand goes down from there.
plan::Plan ring(const Case& c) {
    plan::Plan p = scene::small_sheet({{"PB15:3", 0.4}});
    p.room = *materials::Presets::read(TIDEMARK_PRESETS_DIR).room(c.room);
    p.width_m = p.height_m = side_m;
    constexpr double pixel_m = 0.25e-3;
    grid::GreyPicture mask;
    mask.width = mask.height = static_cast<int>(side_m / pixel_m + 0.5);
    for (int y = 0; y < mask.height; ++y)
        for (int x = 0; x < mask.width; ++x) {
            const double r = std::hypot((x + 0.5) * pixel_m - middle_m, (y + 0.5) * pixel_m - middle_m);
            mask.value.push_back(std::abs(r - radius_m) < width_m / 2 ? 1.0f : 0.0f);
        }
    p.areas.push_back({.name = "ring", .file = "ring", .mask = mask});
    if (c.dampened)
        scene::add_step(p, "wet", 0, plan::Wet{.water_kg_m2 = 0.15, .area = 0});
    const double seconds = 60 * c.minutes;
    plan::Wash wash{.area = 0, .mix = 1, .film_m = 120e-6};
    if (c.way == Way::round) {
        plan::Stroke round;
        for (int k = 0; k <= 120; ++k) {
            const double turn = 2 * M_PI * 0.9999 * k / 120;
            round.push_back({middle_m + radius_m * std::cos(turn), middle_m + radius_m * std::sin(turn)});
        }
        wash.travel = plan::Travel::strokes, wash.strokes = {round};
        wash.pace_m2_s = mark_m * 2 * M_PI * radius_m / seconds;
    } else {
        wash.travel = plan::Travel::from_point, wash.from_x_m = middle_m + radius_m, wash.from_y_m = middle_m;
        wash.pace_m2_s = 2 * M_PI * radius_m * width_m / seconds;
    }
    scene::add_step(p, "ring", c.dampened ? wash_at_s : 0, wash);
    return p;
}

/// Calls `see` with each cell within `reach_m` of the ring's middle line, and its way round from the start, 0 ... 1.
template <class See> void over_ring(const sheet::Geometry& g, double reach_m, const See& see) {
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) {
            const double x = (i + 0.5) * g.cell_m - middle_m, y = (j + 0.5) * g.cell_m - middle_m;
            if (std::abs(std::hypot(x, y) - radius_m) >= reach_m) continue;
            const double turn = std::atan2(y, x) / (2 * M_PI);
            see(i, j, turn < 0 ? turn + 1 : turn);
        }
}

template <class T> T median(std::vector<T>& values) {
    std::nth_element(values.begin(), values.begin() + values.size() / 2, values.end());
    return values.at(values.size() / 2);
}

struct Closed {
    double edge[4] = {0, 0, 0, 0}; ///< share in each stage, just before, of the 2 mm that the hand comes back to
    double mark_L = 0;             ///< largest change of L* in two millimetres of way, up to 8 mm from the seam
    double elsewhere_L = 0;        ///< the same, median of the rest of the ring
    double left_mm = 0;            ///< of edge left behind, by the record
};

Closed closed(const Case& c, double cell_m, scene::ContactSheet* sheet) {
    const double round_m = 2 * M_PI * radius_m;
    const double back_s = (c.dampened ? wash_at_s : 0) + 60 * c.minutes * (1 - 1.5e-3 / round_m);
    rehearsal::Rehearsal run(ring(c), {.cell_m = cell_m});
    Closed k;
    const double edge_from_m = c.way == Way::round ? 0 : round_m / 2; // both ends are still on their way there
    bool looked = false;
    while (run.step()) {
        if (looked || run.time_s() < back_s) continue;
        looked = true;
        const auto rule = sheet::stage_rule(run.sheet());
        double n = 0;
        over_ring(run.sheet().geometry, width_m / 2, [&](int i, int j, double turn) {
            const double beyond_m = turn * round_m - edge_from_m;
            if (beyond_m < 0 || beyond_m > 2e-3 || !run.record().acts.back().cells.touched(i, j)) return;
            const auto stage = sheet::stage_of(rule, run.sheet().film_m(i, j), run.sheet().front_kg_m2(i, j));
            ++k.edge[static_cast<int>(stage)], ++n;
        });
        for (double& share : k.edge) share /= n;
    }
    k.left_mm = run.record().acts.back().left_behind.faces * cell_m * 1e3;
    const auto look = sheet::look(run.sheet(), sheet::LookAs::dried);
    std::vector<std::vector<float>> across(bins);
    over_ring(run.sheet().geometry, width_m / 3, [&](int i, int j, double turn) {
        across[static_cast<int>(turn * bins) % bins].push_back(look.lstar(i, j));
    });
    std::vector<double> l;
    for (auto& a : across) l.push_back(median(a)); // a lap goes all across; a speck is none
    std::vector<double> rest;
    const int meet = c.way == Way::round ? 0 : bins / 2; // the bin behind the face where they meet
    for (int b = 0; b < bins; ++b) {
        const double change = std::abs(l[b] - l[(b + 2) % bins]);
        const int off = (b + 1 - meet + bins + bins / 2) % bins - bins / 2; // of the bin between
        if (off >= -seam_bins && off < seam_bins) k.mark_L = std::max(k.mark_L, change);
        else rest.push_back(change);
    }
    k.elsewhere_L = median(rest);
    if (sheet)
        sheet->add(run.sheet(), {fmt::format("{}, {}", c.room, paper(c)),
                                 fmt::format("{}, {:g} min: {:.1f} L*", way(c), c.minutes, k.mark_L)});
    return k;
}

std::string line_of(const Case& c, double cell_m, const Closed& k) {
    const auto pct = [&](int stage) { return 100 * k.edge[stage]; };
    return fmt::format("{:.1f} mm cells, {:17} {:9} {:9} {:5g} min: edge wet {:3.0f} moist {:3.0f} damp {:3.0f} %, "
                       "mark {:4.1f} L* (elsewhere {:.1f}), left behind {:.0f} mm\n",
                       cell_m * 1e3, c.room, paper(c), way(c), c.minutes, pct(0), pct(1), pct(2) + pct(3), k.mark_L,
                       k.elsewhere_L, k.left_mm);
}

} // namespace

// On dampened paper the start's paint runs back some millimetres before the hand comes, nearly at its full strength:
// what the hand meets is the end of that fringe. In the sun the paper beyond has dried by then and the fringe has a rim
// of its own: there a mark grows from four minutes on, while the seam itself is wet, and nobody has warned.
TEST_CASE("a ring has a lap where the hand is back at an edge without film; a fast hand or a humid room leaves none",
          "[behaviour][rehearsal]") {
    const Case fast{"outdoors-sun", 0.25}, four{"outdoors-sun", 4}, moist{"outdoors-sun", 6}, dried{"outdoors-sun", 10},
        humid{"humid-summer", 10}, humid_dried{"humid-summer", 20},
        both{"outdoors-sun", 10, true, Way::both}; // never far from either end
    std::string table = "a dampened ring, painted round until it closes\n";
    for (const double cell_m : {1e-3, 0.5e-3}) {
        scene::ContactSheet sheet(fmt::format("lap-dampened-{:.2g}mm", cell_m * 1e3), 4, 8);
        const auto played = [&](const Case& c) {
            const Closed k = closed(c, cell_m, &sheet);
            table += line_of(c, cell_m, k);
            return k;
        };
        const Closed in_time[] = {played(fast), played(humid), played(both)};
        const Closed in_four = played(four), on_moist = played(moist);
        const Closed too_late[] = {played(dried), played(humid_dried)};
        sheet.write();
        INFO(table);
        for (const Closed& k : in_time) {
            CHECK(k.edge[0] >= 0.8);
            CHECK(k.mark_L < lap_from_L);
            CHECK(k.left_mm < 0.5e3 * width_m);
        }
        for (const Closed& k : too_late) {
            CHECK(k.edge[2] + k.edge[3] > 0.9);
            CHECK(k.mark_L > lap_from_L);
            CHECK(k.left_mm > 0.5e3 * width_m); // and the painter is told
        }
        for (const Closed& k : {in_time[0], in_time[1], in_time[2], in_four, on_moist, too_late[0], too_late[1]})
            CHECK(k.elsewhere_L < none_elsewhere_L);
        CHECK(on_moist.edge[1] > 0.5);
        CHECK(in_time[0].mark_L < in_four.mark_L);
        CHECK(in_four.mark_L < on_moist.mark_L);
        CHECK(on_moist.mark_L < too_late[0].mark_L);
    }
    fmt::print("{}", table);
}

// Common practice: dampen what is large. Dry sized paper drinks most of a film within minutes, fine pigment with it: after
// four minutes seven tenths of what lay at the start were in the paper or settled, and films that still run together
// can't even out what no longer floats. So the mark is there before the film is gone, the stage is no measure of it, and
// the program has not warned. The start is the darker side: the last paint runs back into the thirsty wash behind it,
// and none follows.
TEST_CASE("on dry paper a ring has to be closed sooner than on dampened paper", "[behaviour][rehearsal]") {
    std::string table = "a ring on dry paper, painted round until it closes\n";
    for (const double cell_m : {1e-3, 0.5e-3}) {
        scene::ContactSheet sheet(fmt::format("lap-dry-paper-{:.2g}mm", cell_m * 1e3), 4, 8);
        std::vector<double> mark_L;
        for (const double minutes : {0.25, 1., 4.}) {
            const Case c{"temperate-studio", minutes, false};
            const Closed k = closed(c, cell_m, &sheet);
            table += line_of(c, cell_m, k);
            mark_L.push_back(k.mark_L);
        }
        const Case c{"temperate-studio", 4};
        const Closed dampened = closed(c, cell_m, nullptr);
        table += line_of(c, cell_m, dampened);
        sheet.write();
        INFO(table);
        CHECK(mark_L[0] < lap_from_L); // a brisk hand
        CHECK(mark_L[0] < mark_L[1]);
        CHECK(mark_L[1] < mark_L[2]);
        CHECK(mark_L[2] > 2 * lap_from_L);
        CHECK(dampened.mark_L < lap_from_L);
    }
    fmt::print("{}", table);
}
