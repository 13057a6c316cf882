#include "rehearsal/open_time.h"

#include "grid/within.h"
#include "rehearsal/rehearsal.h"
#include "sheet/look.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace tidemark::rehearsal {

namespace {

constexpr double side_m = 0.030, cell_m = 1e-3, seam_m = side_m / 2;
constexpr int edge_cells = 2, mark_cells = 2, seam_cells = 8, border_cells = 3, halvings = 4;

void check(const OpenPatch& p) {
    grid::within("film_m", p.film_m, {20, 1000, "µm", 1e-6});
    grid::within("pigment_mass_fraction", p.pigment_mass_fraction, {0.001, 20, "%", 0.01});
    grid::within("wetted_kg_m2", p.wetted_kg_m2, {0, 1, "kg/m²"});
    grid::within("wetted_before_s", p.wetted_before_s, {0, 3600, "s"});
    grid::within("mark_lstar", p.mark_lstar, {0.1, 100, "L*"});
}

/// The left half, and after it the right one, if any.
plan::Plan plan_of(const OpenPatch& patch, const double* wait_s) {
    plan::Plan p;
    p.width_m = p.height_m = side_m;
    p.paper = patch.paper, p.room = patch.room, p.board = patch.board;
    p.pigments = {patch.pigment};
    plan::Mix mix;
    mix.name = "mix";
    mix.pigments = {{0, patch.pigment_mass_fraction}};
    constexpr double gum_per_pigment = 0.6; // as read_mixes.cpp has it
    mix.gum_mass_fraction = gum_per_pigment * patch.pigment_mass_fraction;
    p.mixes = {mix};
    for (const double x_m : {0.0, seam_m}) {
        plan::Area half;
        half.name = x_m > 0 ? "right" : "left";
        half.form = plan::Rectangle{x_m, 0, side_m - seam_m, side_m};
        p.areas.push_back(half);
    }
    const auto step = [&](const char* name, const plan::Start& start, const plan::Act& act) {
        p.steps.push_back({name, 1, start, act});
    };
    plan::Wash wash;
    wash.film_m = patch.film_m;
    double at_s = 0;
    if (patch.wetted_kg_m2 > 0) {
        plan::Wet wet;
        wet.water_kg_m2 = patch.wetted_kg_m2;
        step("wet", plan::AtTime{0}, wet);
        at_s = side_m * side_m / wet.pace_m2_s + patch.wetted_before_s;
    }
    wash.area = 0;
    step("left", plan::AtTime{at_s}, wash);
    if (wait_s) {
        wash.area = 1;
        step("right", plan::AfterStep{static_cast<int>(p.steps.size()) - 1, *wait_s}, wash);
    }
    return p;
}

/// Of the cells at the seam, on the side of the first wash.
bool edge_has_reached(const sheet::SheetState& s, sheet::CellStage stage) {
    const sheet::StageRule rule = sheet::stage_rule(s);
    const int seam = s.geometry.nx / 2;
    double share[4] = {};
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = seam - edge_cells; i < seam; ++i)
            share[static_cast<int>(sheet::stage_of(rule, s.film_m(i, j), s.front_kg_m2(i, j)))] +=
                1.0 / (edge_cells * s.geometry.ny);
    return sheet::has_reached(share, stage);
}

/// A lap goes all across; a speck is none. The rows at the sheet's border are left out.
std::vector<float> median_by_column(const grid::Field<float>& lstar) {
    std::vector<float> columns;
    for (int i = 0; i < lstar.nx(); ++i) {
        std::vector<float> column;
        for (int j = border_cells; j < lstar.ny() - border_cells; ++j)
            column.push_back(lstar(i, j));
        const auto middle = column.begin() + static_cast<std::ptrdiff_t>(column.size() / 2);
        std::nth_element(column.begin(), middle, column.end());
        columns.push_back(*middle);
    }
    return columns;
}

/// L* across the seam of a patch that has dried.
std::vector<float> dried_columns(const OpenPatch& patch, double wait_s) {
    Rehearsal run(plan_of(patch, &wait_s), {.cell_m = cell_m});
    // When all is laid and no film is left, pigment stays where it is: the look is that of the dried sheet.
    while (run.step())
        if (run.record().acts.size() == run.plan().steps.size() && !run.acting() && !run.sheet().film_tiles.any())
            break;
    return median_by_column(sheet::look(run.sheet(), sheet::LookAs::dried).lstar);
}

/// Near the seam, the largest change within two millimetres, less what goes on the same way before or after it.
double sharpest_change(const std::vector<float>& l) {
    const int seam = static_cast<int>(l.size()) / 2;
    const auto change = [&](int i) { return static_cast<double>(l[i + mark_cells]) - l[i]; };
    double sharpest = 0;
    for (int i = seam - seam_cells; i + mark_cells < seam + seam_cells; ++i) {
        const double sign = change(i) < 0 ? -1 : 1;
        const double goes_on = std::max({0.0, sign * change(i - mark_cells), sign * change(i + mark_cells)});
        sharpest = std::max(sharpest, sign * change(i) - goes_on);
    }
    return sharpest;
}

} // namespace

double lap_lstar(const OpenPatch& patch, double wait_s) {
    check(patch);
    grid::within("wait_s", wait_s, {0, 24, "h", 3600});
    return sharpest_change(dried_columns(patch, wait_s));
}

OpenTime open_time(const OpenPatch& patch) {
    check(patch);
    OpenTime open;
    Rehearsal run(plan_of(patch, nullptr), {.cell_m = cell_m});
    bool shines = true;
    while (run.step()) {
        if (run.record().acts.size() < run.plan().steps.size() || run.acting())
            continue;
        const double since_s = run.time_s() - run.record().acts.back().end_s;
        if (shines && edge_has_reached(run.sheet(), sheet::CellStage::moist))
            shines = false, open.sheen_s = since_s;
        open.film_s = since_s;
        if (edge_has_reached(run.sheet(), sheet::CellStage::damp))
            break;
    }
    const double last_s = (1 - 1.0 / (1 << halvings)) * open.film_s;
    double joins_s = 0, shows_s = last_s;
    const auto joins = [&](double wait_s) { return lap_lstar(patch, wait_s) < patch.mark_lstar; };
    if (joins(last_s)) {
        open.joins_s = open.film_s;
        return open;
    }
    for (int k = 0; k < halvings; ++k) {
        const double wait_s = 0.5 * (joins_s + shows_s);
        (joins(wait_s) ? joins_s : shows_s) = wait_s;
    }
    open.joins_s = joins_s;
    return open;
}

} // namespace tidemark::rehearsal
