// Washes on a tilted board. Common practice: a bead gathers at the low edge, larger on a steeper board; it is picked up,
// or it dries as a dark line; it stays within what was painted unless there is too much of it.
#include <catch2/catch.hpp>

#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"
#include "water/film.h"

#include <fmt/core.h>

using namespace tidemark;

namespace {

constexpr double deg = M_PI / 180;
constexpr double height_m = 0.050; ///< of a sheet 12 mm wide
constexpr double top_m = 6e-3, bottom_m = 36e-3, low_edge_m = 3e-3; ///< of what is painted

/// A wash 30 mm long down the slope, over the whole width of the sheet: its section is the same everywhere.
plan::Plan washed(double tilt_deg, double film_m, plan::Bead bead = plan::Bead::left) {
    plan::Plan p = scene::small_sheet({{"PB15:3", 0.3}}, "hot-pressed-300");
    p.width_m = 0.012, p.height_m = height_m;
    p.tilt_rad = tilt_deg * deg;
    p.areas.push_back({.name = "painted", .file = {}, .mask = {},
                       .form = plan::Rectangle{-0.010, top_m, 0.032, bottom_m - top_m}});
    scene::add_step(p, "wash", 0, plan::Wash{.area = 0, .mix = 1, .film_m = film_m, .pace_m2_s = 0.3e-4,
                                             .travel = plan::Travel::downhill, .bead = bead});
    return p;
}

/// Mean of what a cell holds, over the rows from `from_m` to `to_m` down the sheet.
template <class F> double mean_of_rows(const sheet::SheetState& s, double from_m, double to_m, F&& of) {
    double sum = 0;
    long cells = 0;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            if ((j + 0.5) * s.geometry.cell_m > from_m && (j + 0.5) * s.geometry.cell_m < to_m)
                sum += of(i, j), ++cells;
    return sum / static_cast<double>(cells);
}

double film_um(const sheet::SheetState& s, double from_m, double to_m) {
    return 1e6 * mean_of_rows(s, from_m, to_m, [&](int i, int j) { return s.film_m(i, j); });
}

double pigment_g_m2(const sheet::SheetState& s, double from_m, double to_m) {
    const auto& p = s.pigments[0];
    return 1e3 * mean_of_rows(s, from_m, to_m, [&](int i, int j) {
        return double(p.afloat_lower(i, j)) + p.afloat_upper(i, j) + p.loose(i, j) + p.bound(i, j) + p.inside(i, j);
    });
}

/// Of the lowest 3 mm of what was painted.
struct Edge {
    double film_um = 0;      ///< a minute after the hand has finished
    double pigment_g_m2 = 0; ///< dry
    double darker = 0;       ///< dry: L* below that of the wash 5 to 12 mm from its top
};
Edge low_edge(const plan::Plan& p, double cell_m, scene::ContactSheet& shown, const std::string& what) {
    rehearsal::Rehearsal run(p, {.cell_m = cell_m});
    Edge e;
    while (run.step())
        if (e.film_um == 0 && !run.record().acts.empty() && run.record().acts[0].ended &&
            run.time_s() >= run.record().acts[0].end_s + 60)
            e.film_um = film_um(run.sheet(), bottom_m - low_edge_m, bottom_m);
    const auto l = sheet::look(run.sheet(), sheet::LookAs::dried).lstar;
    const auto lightness = [&](int i, int j) { return l(i, j); };
    e.pigment_g_m2 = pigment_g_m2(run.sheet(), bottom_m - low_edge_m, bottom_m);
    e.darker = mean_of_rows(run.sheet(), top_m + 5e-3, top_m + 12e-3, lightness) -
               mean_of_rows(run.sheet(), bottom_m - low_edge_m, bottom_m, lightness);
    shown.add(run.sheet(), {what, fmt::format("edge {:.1f} L* darker", e.darker)});
    return e;
}

/// Deepest film, by Furmidge's law, that a wash so long can have before its bead breaks out.
double retained_film_m(const plan::Plan& p) {
    const auto f = water::FilmParams::of(p.paper);
    const double section_m2 = f.gamma_N_m * (std::cos(f.theta_receding_rad) - std::cos(f.theta_advancing_rad)) /
                              (1000 * f.gravity_m_s2 * std::sin(p.tilt_rad));
    return section_m2 / (bottom_m - top_m);
}

} // namespace

TEST_CASE("a bead gathers at the low edge, grows with the tilt, and dries as a dark line unless it is picked up",
          "[behaviour][rehearsal]") {
    std::string table = "a wash of 150 um, 30 mm down the slope: film in its lowest 3 mm a minute after it was laid; dry:\n"
                        "pigment there, and L* of the lowest 3 mm below that of the wash 5 to 12 mm from its top\n";
    const double tilts[] = {0, 3, 8, 15};
    std::vector<Edge> coarse;
    for (const double cell_m : {1e-3, 0.5e-3}) {
        scene::ContactSheet sheet(fmt::format("tilt-{:.2g}mm", cell_m * 1e3), 5, 8);
        const auto edge_of = [&](const plan::Plan& p, const std::string& what) {
            const Edge e = low_edge(p, cell_m, sheet, what);
            table += fmt::format("{:.1f} mm cells, {:17} {:4.0f} um, {:.2f} g/m2, {:5.1f} L*\n", cell_m * 1e3, what, e.film_um,
                                 e.pigment_g_m2, e.darker);
            return e;
        };
        std::vector<Edge> left;
        for (const double tilt : tilts) left.push_back(edge_of(washed(tilt, 150e-6), fmt::format("{:g} deg, left", tilt)));
        const Edge picked_up = edge_of(washed(8, 150e-6, plan::Bead::picked_up), "8 deg, picked up");
        sheet.write();
        INFO(table);
        CHECK(left[0].film_um < 150); // level: no more than was laid
        CHECK(std::abs(left[0].darker) < 1);
        for (std::size_t k = 1; k < left.size(); ++k) {
            INFO(tilts[k] << " degrees");
            CHECK(left[k].film_um > 1.2 * left[k - 1].film_um);
            CHECK(left[k].darker > left[k - 1].darker);
            if (!coarse.empty()) {
                CHECK(left[k].film_um == Approx(coarse[k].film_um).epsilon(0.1));
                CHECK(left[k].pigment_g_m2 == Approx(coarse[k].pigment_g_m2).epsilon(0.1));
            }
        }
        CHECK(left[2].darker > 5);
        CHECK(picked_up.film_um < 0.7 * left[2].film_um);
        CHECK(picked_up.pigment_g_m2 < 0.7 * left[2].pigment_g_m2);
        CHECK(picked_up.darker < left[2].darker - 3);
        coarse = left;
    }
    fmt::print("{}", table);
}

// Furmidge (1962), of the whole wash: its bead runs together across the slope too, and holds a third more in places.
TEST_CASE("water runs out of a wash only past the retention limit", "[behaviour][rehearsal]") {
    std::string table = "share of the pigment that left a wash of 30 mm, by what it holds of what the hysteresis retains\n";
    for (const auto& [cell_m, tilt] : {std::pair{1e-3, 15.0}, {1e-3, 30.0}, {0.5e-3, 30.0}})
        for (const double holds : {0.6, 1.3}) {
            const double film_m = holds * retained_film_m(washed(tilt, 0));
            const auto run = scene::played(washed(tilt, film_m), cell_m, 90);
            const double below = pigment_g_m2(run.sheet(), bottom_m, height_m) * (height_m - bottom_m);
            const double left = below / (below + pigment_g_m2(run.sheet(), 0, bottom_m) * bottom_m);
            table += fmt::format("{:.1f} mm cells, {:g} degrees, film {:.0f} um, {:.1f}: {:.3f}\n", cell_m * 1e3, tilt,
                                 film_m * 1e6, holds, left);
            INFO(table);
            if (holds < 1)
                CHECK(left == 0);
            else
                CHECK(left > 0.2);
        }
    fmt::print("{}", table);
}
