// What simple shapes and sets of areas cover of a sheet's cells, held against areas and values known in closed form, or
// found by looking at very many points.
#include "grid/problem.h"
#include "plan/coverage.h"
#include "plan/schedule.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

using namespace tidemark;
using namespace tidemark::plan;
using Catch::Detail::Approx;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double mm = 1e-3;

/// A sheet of 60 × 40 mm.
Plan sheet() {
    Plan p;
    p.width_m = 60 * mm, p.height_m = 40 * mm;
    return p;
}

int add(Plan& p, Form form, double soft_m = 0) {
    p.areas.push_back({.name = "area", .file = {}, .mask = {}, .form = std::move(form), .soft_m = soft_m});
    return static_cast<int>(p.areas.size()) - 1;
}

grid::Field<float> cover(const Plan& p, int area, double cell_mm = 0.5) {
    return coverage(p, area, static_cast<int>(std::lround(60 / cell_mm)), static_cast<int>(std::lround(40 / cell_mm)));
}

double covered_mm2(const grid::Field<float>& f) {
    double sum = 0;
    for (int j = 0; j < f.ny(); ++j)
        for (int i = 0; i < f.nx(); ++i)
            sum += f(i, j);
    return sum * 2400 / (f.nx() * f.ny());
}

double area_mm2(Form form, double cell_mm = 0.5, double soft_mm = 0) {
    Plan p = sheet();
    const int area = add(p, std::move(form), soft_mm * mm);
    return covered_mm2(cover(p, area, cell_mm));
}

Polygon polygon(std::initializer_list<std::pair<double, double>> corners_mm) {
    Polygon shape;
    for (const auto& [x, y] : corners_mm)
        shape.corners.push_back({x * mm, y * mm});
    return shape;
}

Line line(double width_mm, std::initializer_list<std::pair<double, double>> points_mm) {
    return {polygon(points_mm).corners, width_mm * mm};
}

Rectangle rectangle(double x, double y, double w, double h) { return {x * mm, y * mm, w * mm, h * mm}; }
Ellipse ellipse(double x, double y, double w, double h) { return {x * mm, y * mm, w * mm, h * mm}; }

/// Share of each cell in which inside(x_mm, y_mm) holds, by 20 × 20 points.
grid::Field<float> by_points(int nx, int ny, const std::function<bool(double, double)>& inside) {
    constexpr int n = 20;
    grid::Field<float> out(nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            int hits = 0;
            for (int k = 0; k < n * n; ++k)
                hits += inside((i + (k % n + 0.5) / n) * 60 / nx, (j + (k / n + 0.5) / n) * 40 / ny) ? 1 : 0;
            out(i, j) = static_cast<float>(hits) / (n * n);
        }
    return out;
}

double largest_difference(const grid::Field<float>& a, const grid::Field<float>& b) {
    double most = 0;
    for (int j = 0; j < a.ny(); ++j)
        for (int i = 0; i < a.nx(); ++i)
            most = std::max(most, std::fabs(static_cast<double>(a(i, j)) - b(i, j)));
    return most;
}

/// In a cell both ways of counting round an edge: 1/20 of a cell by points, 1/8 of the 1/8 of a cell by ramps.
constexpr double by_points_differs = 0.05 + 1.0 / 64;

} // namespace

TEST_CASE("a shape covers its area, to a percent, in fine and coarse cells", "[law][plan]") {
    for (const double cell_mm : {0.25, 0.5, 1.0}) {
        INFO("cells of " << cell_mm << " mm");
        CHECK(area_mm2(ellipse(30.13, 20.21, 10, 10), cell_mm) == Approx(25 * pi).epsilon(0.002));
        CHECK(area_mm2(ellipse(30.13, 20.21, 3, 3), cell_mm) == Approx(2.25 * pi).epsilon(0.01));
        CHECK(area_mm2(ellipse(30.13, 20.21, 40, 6), cell_mm) == Approx(60 * pi).epsilon(0.002));
        CHECK(area_mm2(polygon({{5.1, 4.3}, {47.7, 9.2}, {20.4, 35.9}}), cell_mm) == // half the cross product
              Approx((42.6 * 31.6 - 15.3 * 4.9) / 2).epsilon(0.002));
        CHECK(area_mm2(line(3, {{10.3, 10.1}, {40.3, 25.7}}), cell_mm) == // a straight piece and two half discs
              Approx(3 * std::hypot(30, 15.6) + 2.25 * pi).epsilon(0.005));
        CHECK(area_mm2(line(4, {{20.2, 20.2}, {20.2, 20.2}}), cell_mm) == Approx(4 * pi).epsilon(0.01)); // a dot
    }
}

TEST_CASE("edges along the grid cover exactly, wherever they cut a cell", "[law][plan]") {
    for (const double shift : {0.0, 0.05, 0.13, 0.31, 0.499})
        CHECK(area_mm2(rectangle(10 + shift, 5 + shift, 7.3, 4.1)) == Approx(7.3 * 4.1).epsilon(3e-4));
    Plan p = sheet();
    const auto f = cover(p, add(p, rectangle(10.1, -5, 20, 60)));
    CHECK(f(19, 40) == 0);
    CHECK(f(20, 40) == Approx(0.8).margin(1e-5)); // 10.0 to 10.5 mm
    CHECK(f(21, 40) == 1);
    CHECK(f(60, 40) == Approx(0.2).margin(1e-5));
}

TEST_CASE("what lies off the sheet is cut off", "[law][plan]") {
    CHECK(area_mm2(ellipse(0, 0, 20, 20)) == Approx(25 * pi).epsilon(0.003));
    CHECK(area_mm2(rectangle(-100, -100, 1000, 1000)) == Approx(2400));
    CHECK(area_mm2(ellipse(300, 20, 40, 40)) == 0);
}

TEST_CASE("a concave polygon covers what lies inside it only", "[law][plan]") {
    // A U: 20 × 20 mm less a slot of 10 × 15 mm from above.
    const Polygon u = polygon({{10, 10}, {15, 10}, {15, 25}, {25, 25}, {25, 10}, {30, 10}, {30, 30}, {10, 30}});
    CHECK(area_mm2(u) == Approx(250).epsilon(0.002));
    Plan p = sheet();
    const auto f = cover(p, add(p, u));
    CHECK(f(40, 30) == 0); // in the slot
    CHECK(f(24, 30) == 1);
}

TEST_CASE("where a polygon crosses itself, twice inside is outside", "[law][plan]") {
    // A five-pointed star drawn in one go: the pentagon in its middle is left out.
    Polygon star;
    for (int k = 0; k < 5; ++k)
        star.corners.push_back({(30 + 15 * std::sin(0.8 * pi * k)) * mm, (20 - 15 * std::cos(0.8 * pi * k)) * mm});
    const double inner = 15 * std::cos(0.4 * pi) / std::cos(0.2 * pi); // circumradius of the pentagon
    const double pentagon = 2.5 * inner * inner * std::sin(0.4 * pi);
    const double whole_star = 5 * 15 * inner * std::sin(0.2 * pi); // ten triangles
    CHECK(area_mm2(star) == Approx(whole_star - pentagon).epsilon(0.005));
    Plan p = sheet();
    const auto f = cover(p, add(p, star));
    CHECK(f(60, 40) == 0);
    CHECK(f(60, 18) == 1);
}

TEST_CASE("distances from an ellipse are right near its axes and centre too", "[law][plan]") {
    // A soft edge shows the distance: coverage = 1/2 - distance / soft. Brute force over the outline.
    for (const auto& [w, h] : {std::pair{30.0, 8.0}, {8.0, 30.0}, {20.0, 20.0}, {40.0, 0.5}}) {
        Plan p = sheet();
        const auto f = cover(p, add(p, ellipse(30.25, 20.25, w, h), 100 * mm)); // centre in the middle of a cell
        for (int j = 0; j < f.ny(); j += 4)
            for (int i = 0; i < f.nx(); i += 4) {
                const double x = 0.5 * i + 0.25 - 30.25, y = 0.5 * j + 0.25 - 20.25;
                double nearest = 1e9;
                for (int k = 0; k < 4000; ++k)
                    nearest = std::min(nearest, std::hypot(x - w / 2 * std::cos(pi * k / 2000),
                                                           y - h / 2 * std::sin(pi * k / 2000)));
                const double sign = std::hypot(2 * x / w, 2 * y / h) < 1 ? -1 : 1;
                // 4000 points lie 0.03 mm apart at most, which a point close to the outline notices.
                REQUIRE(100 * (0.5 - f(i, j)) == Approx(sign * nearest).margin(0.02));
            }
    }
}

TEST_CASE("a soft edge goes from full to none over its width, centred on the outline", "[law][plan]") {
    for (const double soft_mm : {1.0, 3.0, 8.0}) {
        Plan p = sheet();
        const auto f = cover(p, add(p, rectangle(20, -50, 100, 200), soft_mm * mm));
        const auto crossing = [&](float level) { // from the left, between cell centres
            int i = 0;
            while (f(i + 1, 40) < level)
                ++i;
            return 0.5 * (i + 0.5 + (level - f(i, 40)) / (f(i + 1, 40) - f(i, 40)));
        };
        INFO("soft_mm = " << soft_mm);
        CHECK(crossing(0.5f) == Approx(20).margin(0.01));
        CHECK(crossing(0.75f) - crossing(0.25f) == Approx(soft_mm / 2).margin(0.03));
        CHECK(f(static_cast<int>(2 * (20 - soft_mm / 2)) - 1, 40) == 0);
        CHECK(f(static_cast<int>(2 * (20 + soft_mm / 2)) + 1, 40) == 1);
    }
}

TEST_CASE("sets of hard shapes are what points inside and outside them say", "[law][plan]") {
    Plan p = sheet();
    const int disc = add(p, ellipse(25.2, 18.1, 24, 24)), box = add(p, rectangle(22.3, 12.7, 30, 9.4));
    const int dot = add(p, ellipse(40.3, 17.2, 6, 6));
    const auto in_disc = [](double x, double y) { return std::hypot(x - 25.2, y - 18.1) < 12; };
    const auto in_box = [](double x, double y) { return x > 22.3 && x < 52.3 && y > 12.7 && y < 22.1; };
    const auto in_dot = [](double x, double y) { return std::hypot(x - 40.3, y - 17.2) < 3; };
    const auto differs = [&](SetWord word, std::vector<int> areas, const std::function<bool(double, double)>& inside) {
        const int set = add(p, AreaSet{word, std::move(areas)});
        return largest_difference(cover(p, set, 1), by_points(60, 40, inside));
    };
    CHECK(differs(SetWord::all, {disc, box, dot}, [&](double x, double y) {
              return in_disc(x, y) || in_box(x, y) || in_dot(x, y);
          }) < by_points_differs);
    CHECK(differs(SetWord::both, {disc, box}, [&](double x, double y) { return in_disc(x, y) && in_box(x, y); }) <
          by_points_differs);
    CHECK(differs(SetWord::minus, {box, disc, dot}, [&](double x, double y) {
              return in_box(x, y) && !in_disc(x, y) && !in_dot(x, y);
          }) < by_points_differs);
    const int ring = add(p, AreaSet{SetWord::minus, {disc, dot}});
    CHECK(differs(SetWord::minus, {whole_sheet, ring, box}, [&](double x, double y) {
              return !(in_disc(x, y) && !in_dot(x, y)) && !in_box(x, y);
          }) < by_points_differs);
}

TEST_CASE("shapes that touch join without a seam, and share nothing", "[law][plan]") {
    Plan p = sheet(); // the common edge, at 30.25 mm, splits a column of cells
    const int left = add(p, rectangle(-10, -10, 40.25, 100)), right = add(p, rectangle(30.25, -10, 100, 100));
    const auto joined = cover(p, add(p, AreaSet{SetWord::all, {left, right}}));
    const auto shared = cover(p, add(p, AreaSet{SetWord::both, {left, right}}));
    const auto rest = cover(p, add(p, AreaSet{SetWord::minus, {whole_sheet, left}}));
    CHECK(cover(p, left)(60, 40) == Approx(0.5));
    for (int i = 0; i < joined.nx(); ++i) {
        CHECK(joined(i, 40) == Approx(1).margin(0.07)); // half a point's column of eight
        CHECK(shared(i, 40) == Approx(0).margin(0.07));
        CHECK(rest(i, 40) == Approx(cover(p, right)(i, 40)).margin(1e-5));
    }
    CHECK_FALSE(covers_anything(p, static_cast<int>(p.areas.size()) - 2)); // what they share
    CHECK(covers_anything(p, left));
}

TEST_CASE("shapes that touch share nothing, even where a point is looked at on their edge", "[law][plan]") {
    Plan p = sheet();
    const double edge = 30.25 + 1.0 / 32; // points lie at odd 32nds of a mm
    const int left = add(p, rectangle(-10, -10, 10 + edge, 100)), right = add(p, rectangle(edge, -10, 100, 100));
    CHECK_FALSE(covers_anything(p, add(p, AreaSet{SetWord::both, {left, right}})));
    CHECK_FALSE(covers_anything(p, add(p, AreaSet{SetWord::minus, {left, left}})));
    CHECK_FALSE(covers_anything(p, add(p, polygon({{5, edge}, {50, edge}, {20, edge}})))); // no inside
}

TEST_CASE("soft shapes join by the greatest, share by the least, and are cut by what the other leaves", "[law][plan]") {
    Plan p = sheet(); // ramps to the right and to the left, 20 mm wide, crossing at 30.25 mm at a quarter
    const int left = add(p, rectangle(-100, -100, 125.25, 300), 20 * mm);
    const int right = add(p, rectangle(35.25, -100, 100, 300), 20 * mm);
    const auto a = cover(p, left), b = cover(p, right);
    const auto all = cover(p, add(p, AreaSet{SetWord::all, {left, right}}));
    const auto both = cover(p, add(p, AreaSet{SetWord::both, {left, right}}));
    const auto minus = cover(p, add(p, AreaSet{SetWord::minus, {left, right}}));
    CHECK(a(60, 40) == Approx(0.25));
    CHECK(b(60, 40) == Approx(0.25));
    for (int i = 0; i < all.nx(); ++i) {
        CHECK(all(i, 40) == Approx(std::max(a(i, 40), b(i, 40))).margin(0.01)); // the cell where the ramps cross
        CHECK(both(i, 40) == Approx(std::min(a(i, 40), b(i, 40))).margin(0.01));
        CHECK(minus(i, 40) == Approx(std::min(a(i, 40), 1 - b(i, 40))).margin(0.01));
    }
}

TEST_CASE("a scribble of many corners is what its edges say one by one", "[law][plan]") {
    Polygon scribble;
    unsigned dice = 7;
    const auto next = [&] { return (dice = dice * 1664525u + 1013904223u) >> 8; };
    for (int k = 0; k < 60; ++k) { // some on a coarse grid: equal heights, edges along the cells, ends on rays
        const bool coarse = k % 3 == 0;
        const double x = coarse ? 4.0 * (next() % 17) - 2 : 1e-3 * (next() % 64000) - 2;
        const double y = coarse ? 4.0 * (next() % 12) - 2 : 1e-3 * (next() % 44000) - 2;
        scribble.corners.push_back({x * mm, y * mm});
    }
    const auto inside = [&](double x_mm, double y_mm) { // a ray to the right, every edge
        bool in = false;
        for (std::size_t k = 0; k < scribble.corners.size(); ++k) {
            const Point a = scribble.corners[k], b = scribble.corners[(k + 1) % scribble.corners.size()];
            const double y = y_mm * mm;
            if ((a.y_m > y) != (b.y_m > y))
                in = in != (x_mm * mm < a.x_m + (y - a.y_m) * (b.x_m - a.x_m) / (b.y_m - a.y_m));
        }
        return in;
    };
    Plan p = sheet();
    const auto f = cover(p, add(p, scribble)), points = by_points(120, 80, inside);
    CHECK(covered_mm2(f) == Approx(covered_mm2(points)).epsilon(0.003));
    CHECK(largest_difference(f, points) < 0.25); // needles thinner than a point's ramp
    long far_off = 0;
    for (int j = 0; j < 80; ++j)
        for (int i = 0; i < 120; ++i)
            far_off += std::fabs(f(i, j) - points(i, j)) > by_points_differs;
    CHECK(far_off < 9600 / 50);
}

TEST_CASE("a soft mask keeps its greys in a set", "[law][plan]") {
    Plan p = sheet();
    Area soft;
    soft.name = "soft", soft.file = "soft.png";
    soft.mask = {60, 40, std::vector<float>(2400)};
    for (int k = 0; k < 2400; ++k)
        soft.mask.value[k] = static_cast<float>(k % 60) / 59;
    p.areas.push_back(soft);
    const int box = add(p, rectangle(10, 10, 40, 20));
    const auto both = cover(p, add(p, AreaSet{SetWord::both, {0, box}}), 1);
    const auto all = cover(p, add(p, AreaSet{SetWord::all, {0, box}}), 1);
    const auto rest = cover(p, add(p, AreaSet{SetWord::minus, {whole_sheet, 0}}), 1);
    for (int i = 0; i < 60; ++i) {
        const float grey = static_cast<float>(i) / 59;
        CHECK(both(i, 20) == Approx(i >= 10 && i < 50 ? grey : 0.0f).margin(1e-6));
        CHECK(all(i, 20) == Approx(i >= 10 && i < 50 ? 1.0f : grey).margin(1e-6));
        CHECK(rest(i, 20) == Approx(1 - grey).margin(1e-6));
    }
}

TEST_CASE("an area of cells is the same whether a block of cells is passed over or looked into", "[law][plan]") {
    // A thin frame leaves whole blocks inside, outside and cut: by points, in all cells.
    Plan p = sheet();
    const int outer = add(p, rectangle(3.3, 3.3, 53.1, 33.1)), inner = add(p, rectangle(4.4, 4.4, 50.9, 30.9));
    const auto frame = cover(p, add(p, AreaSet{SetWord::minus, {outer, inner}}));
    const auto in = [](double x, double y, double from, double w, double h) {
        return x > from && x < from + w && y > from && y < from + h;
    };
    const auto points = by_points(120, 80, [&](double x, double y) {
        return in(x, y, 3.3, 53.1, 33.1) && !in(x, y, 4.4, 50.9, 30.9);
    });
    CHECK(largest_difference(frame, points) < by_points_differs);
}

TEST_CASE("many areas that each use two others are no more work than they are", "[law][plan]") {
    Plan p = sheet();
    int one = add(p, ellipse(20, 20, 20, 20)), other = add(p, ellipse(40, 20, 20, 20));
    for (int k = 0; k < 30; ++k) { // 2^30 ways down to the discs
        const int joined = add(p, AreaSet{SetWord::all, {one, other}});
        one = other, other = joined;
    }
    CHECK(covered_mm2(cover(p, other)) == Approx(200 * pi).epsilon(0.003));
}

TEST_CASE("areas made of each other are refused, not followed for ever", "[law][plan]") {
    Plan p = sheet();
    add(p, AreaSet{SetWord::all, {1, whole_sheet}}), add(p, AreaSet{SetWord::all, {0, whole_sheet}});
    CHECK_THROWS_AS(cover(p, 0), grid::InternalError);
}

TEST_CASE("the timetable takes what a shape covers", "[law][plan]") {
    Plan p = sheet();
    const int disc = add(p, ellipse(30, 20, 20, 20));
    CHECK(area_m2(p, disc) == Approx(100 * pi * mm * mm).epsilon(0.002));
}
