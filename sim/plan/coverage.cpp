#include "plan/coverage.h"

#include "grid/rows.h"
#include "plan/area_at_detail.h"

#include <algorithm>
#include <cmath>

namespace tidemark::plan {

namespace {

constexpr int block = 8;   // cells a side: far from every edge, a block is asked about once
constexpr int blocks = 4;  // a side of a square of blocks that is asked about first
constexpr int finest = 8;  // points a side of a cell
constexpr double checked_cell_m = 0.5e-3;
/// A point belongs to an area when it is covered by more than a half. What two touching areas share, or one leaves of
/// its twin, comes to a half on the common edge, give or take the last bits.
constexpr float more_than_half = 0.501f;

/// The cells of a sheet, and an area to look at in them.
struct Grid {
    AreaNodes area;
    double cell_x_m, cell_y_m;
    int nx, ny;
    int points; ///< a side of a cell where an edge runs through it

    Grid(const Plan& plan, int index, int nx_, int ny_)
        : area(plan, index, nx_, ny_), cell_x_m(plan.width_m / nx_), cell_y_m(plan.height_m / ny_), nx(nx_), ny(ny_) {
        const double ramps = area.hardest_edge_m() / cell_m(); // a ramp of many cells is all but straight within one
        points = ramps * finest <= finest ? finest : std::max(1, static_cast<int>(std::ceil(finest / ramps)));
    }
    double cell_m() const { return std::max(cell_x_m, cell_y_m); }
    double ramp_m() const { return cell_m() / points; }
    double reach_m(int cells) const { // of a square of cells from its centre, edges' ramps and rounding included
        const double diagonal = std::sqrt(cell_x_m * cell_x_m + cell_y_m * cell_y_m);
        return (0.5 * cells + 1e-6) * diagonal;
    }
};

struct Seen {
    float mean = 0, most = 0;
};

Seen in_cell(const Grid& g, int i, int j, AreaNear& near) {
    const Span whole = near.at({(i + 0.5) * g.cell_x_m, (j + 0.5) * g.cell_y_m, g.reach_m(1), i, j});
    if (whole.is_one_value())
        return {whole.least, whole.least};
    Seen seen;
    double sum = 0;
    for (int l = 0; l < g.points; ++l)
        for (int k = 0; k < g.points; ++k) {
            const double x = (i + (k + 0.5) / g.points) * g.cell_x_m, y = (j + (l + 0.5) / g.points) * g.cell_y_m;
            const float value = near.at({x, y, 0, i, j}).least;
            sum += value;
            seen.most = std::max(seen.most, value);
        }
    seen.mean = static_cast<float>(sum / (g.points * g.points));
    return seen;
}

/// A square of cells that begins with (i, j), clipped to the sheet.
struct Square {
    const Grid& g;
    int i, j, cells;
    Place place() const {
        return {(i + 0.5 * cells) * g.cell_x_m, (j + 0.5 * cells) * g.cell_y_m, g.reach_m(cells), i, j, cells};
    }
    template <class F> void each_cell(F&& f) const {
        for (int l = j; l < std::min(j + cells, g.ny); ++l)
            for (int k = i; k < std::min(i + cells, g.nx); ++k)
                f(k, l);
    }
};

/// see(i, j, Seen) for all cells of the square; of those far from every edge the same.
template <class See> void look_at(const Square& square, See&& see) {
    const Grid& g = square.g;
    AreaNear near(g.area, square.place(), g.ramp_m());
    const Span whole = near.whole();
    if (whole.is_one_value())
        return square.each_cell([&](int i, int j) { see(i, j, Seen{whole.least, whole.least}); });
    if (square.cells == block)
        return square.each_cell([&](int i, int j) { see(i, j, in_cell(g, i, j, near)); });
    for (int j = square.j; j < std::min(square.j + square.cells, g.ny); j += block)
        for (int i = square.i; i < std::min(square.i + square.cells, g.nx); i += block)
            look_at(Square{g, i, j, block}, see);
}

/// All cells of the row of squares.
template <class See> void look_along(const Grid& g, int row, See&& see) {
    for (int i = 0; i < g.nx; i += blocks * block)
        look_at(Square{g, i, row * blocks * block, blocks * block}, see);
}

int rows_of_squares(int ny) { return (ny + blocks * block - 1) / (blocks * block); }

} // namespace

grid::Field<float> coverage(const Plan& plan, int area, int nx, int ny) {
    grid::Field<float> out(nx, ny, 1.0f);
    if (area < 0)
        return out;
    const Grid g(plan, area, nx, ny);
    grid::for_rows(rows_of_squares(ny), static_cast<long>(nx) * ny,
                   [&](int b) { look_along(g, b, [&](int i, int j, const Seen& seen) { out(i, j) = seen.mean; }); });
    return out;
}

bool covers_anything(const Plan& plan, int area) {
    if (area < 0)
        return true;
    const Grid g(plan, area, static_cast<int>(std::ceil(plan.width_m / checked_cell_m)),
                 static_cast<int>(std::ceil(plan.height_m / checked_cell_m)));
    bool found = false;
    for (int b = 0; b < rows_of_squares(g.ny) && !found; ++b)
        look_along(g, b, [&](int, int, const Seen& seen) { found = found || seen.most >= more_than_half; });
    return found;
}

std::string area_name(const Plan& plan, int area) { return area < 0 ? "whole sheet" : plan.areas[area].name; }

} // namespace tidemark::plan
