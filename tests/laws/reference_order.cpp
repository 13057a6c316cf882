/// Where to begin the connected shape, and how the hand goes through it.
#include "reference/order.h"
#include "reference_scene.h"
#include "support/shortest_ways.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::reference;
using tests::Scene;

namespace {

/// 1 mm a pixel and a cell, bands of two cells, nothing too small.
const Ordering fine{.cell_mm = 1, .band_mm = 2, .branch_mm2 = 0, .branch_mm = 0, .pace_cm2_s = 0.01};

Order order_of(const Scene& s, const Ordering& how, double pixels_per_mm = 1) {
    return painting_order(s.masses, connected_shape(s.masses, pixels_per_mm), pixels_per_mm, how);
}

Ordering from(double x_mm, double y_mm, Ordering how = fine) {
    how.start = Place{x_mm, y_mm};
    return how;
}

/// A trunk from the left, 20 × 3 pixels, that ends in an arm upwards of 14 pixels and one downwards of 26.
Scene forked() {
    std::vector<std::string> rows(46, std::string(26, '.'));
    for (int y = 0; y < 46; ++y)
        for (int x = 0; x < 26; ++x)
            if ((x < 20 && y >= 15 && y < 18) || (x >= 20 && x < 23 && y >= 1 && y < 44)) rows[y][x] = 'd';
    return Scene(rows);
}

/// A ring of 3 pixels round a light; the upper way from left to right is shorter than the lower.
Scene ring() {
    std::vector<std::string> rows(40, std::string(40, '.'));
    for (int y = 2; y < 36; ++y)
        for (int x = 2; x < 38; ++x) rows[y][x] = y >= 5 && y < 33 && x >= 5 && x < 35 ? '.' : 'm';
    return Scene(rows);
}

} // namespace

TEST_CASE("how far the hand is from the start is the shortest way inside the shape", "[law][reference]") {
    for (unsigned seed = 1; seed <= 8; ++seed) {
        const Scene s = tests::islands(40, 30, 24, seed);
        const Connected c = connected_shape(s.masses, 1);
        grid::Field<float> cover(40, 30);
        grid::Cell start{-1, 0};
        for (int y = 0; y < 30; ++y)
            for (int x = 0; x < 40; ++x)
                if ((cover(x, y) = c.at(s.masses, x, y) == 0 ? 1.0f : 0.0f) > 0 && start.i < 0) start = {x, y};
        const Order o = painting_order(s.masses, c, 1, from(start.i + 0.5, start.j + 0.5));
        const auto way = scene::shortest_ways(cover, start);
        double farthest = 0, length = 0;
        for (int y = 0; y < 30; ++y)
            for (int x = 0; x < 40; ++x) {
                const float far_mm = o.far_mm[static_cast<std::size_t>(y) * o.width + x];
                if (way(x, y) == grid::Geodesic::unreached) {
                    REQUIRE(far_mm == grid::Geodesic::unreached);
                    continue;
                }
                REQUIRE(far_mm == Approx(way(x, y)).margin(1e-3));
                farthest = std::max<double>(farthest, way(x, y));
            }
        CHECK(o.length_mm == Approx(farthest));
        for (std::size_t k = 1; k < o.way.size(); ++k)
            length += std::hypot(o.way[k].x_mm - o.way[k - 1].x_mm, o.way[k].y_mm - o.way[k - 1].y_mm);
        CHECK(length == Approx(o.length_mm));
        CHECK(o.way.front().x_mm == o.start.x_mm);
        CHECK(o.start.x_mm == start.i + 0.5);
        CHECK(o.start.y_mm == start.j + 0.5);
    }
}

TEST_CASE("at a fork the shorter arm is painted first while the other's edge waits", "[law][reference]") {
    const Scene s = forked();
    const Order o = order_of(s, from(0, 16));
    REQUIRE(o.branches.size() == 3);
    const Branch &trunk = o.branches[0], &up = o.branches[1], &down = o.branches[2];
    CHECK(trunk.area_mm2 + up.area_mm2 + down.area_mm2 == 20 * 3 + 3 * 43);
    // The front has to have come to the far side, some 3 pixels on, before it parts; and then to the end of a band.
    CHECK(up.area_mm2 == Approx(3 * (14 - 3)).margin(6));
    CHECK(down.area_mm2 == Approx(3 * (26 - 3)).margin(6));
    CHECK(up.last.y_mm == 1.5);
    CHECK(down.last.y_mm == 43.5);
    for (const Branch* arm : {&up, &down}) CHECK(arm->from == std::vector<int>{0});
    CHECK(trunk.end_s == Approx(trunk.area_mm2)); // 1 mm²/s
    CHECK(up.waited_s == 0);
    CHECK(down.waited_s == Approx(up.area_mm2));
    CHECK(o.longest_wait_s == down.waited_s);
    CHECK(o.longest_wait_in_turn_s < down.waited_s); // back and forth between the arms
    CHECK(o.minutes == Approx(189.0 / 60));
    CHECK(o.length_mm == Approx(20 + 26).margin(2));
    // Too long or not.
    for (const double open_s : {0.9 * up.area_mm2, 1.1 * up.area_mm2}) {
        Ordering how = from(0, 16);
        how.open_s = open_s;
        const Order asked = order_of(s, how);
        CHECK(asked.branches[2].too_long == (open_s < up.area_mm2));
        CHECK_FALSE(asked.branches[1].too_long);
    }
    CHECK_FALSE(down.too_long); // nobody asked
    // Taken along: an arm that is too small, and one that is too short.
    Ordering coarse = from(0, 16);
    coarse.branch_mm2 = 40;
    CHECK(order_of(s, coarse).branches.size() == 1);
    coarse.branch_mm2 = 0, coarse.branch_mm = 14;
    CHECK(order_of(s, coarse).branches.size() == 1);
    // From the end of an arm there is a fork all the same.
    CHECK(order_of(s, from(21, 43)).branches.size() == 3);
}

TEST_CASE("where two arms meet again behind a light, the first one's edge has waited for the other", "[law][reference]") {
    const Scene s = ring();
    const Order o = order_of(s, from(2, 5)); // the upper way to the opposite corner is as long as the lower, nearly
    REQUIRE(o.branches.size() == 4);
    const Branch &shorter = o.branches[1], &longer = o.branches[2], &meeting = o.branches[3];
    CHECK(shorter.from == std::vector<int>{0});
    CHECK(longer.from == std::vector<int>{0});
    CHECK(shorter.area_mm2 <= longer.area_mm2);
    CHECK(meeting.from == std::vector<int>{1, 2});
    CHECK(longer.waited_s == Approx(shorter.area_mm2));
    CHECK(meeting.waited_s == Approx(longer.area_mm2));
    double area = 0;
    for (const Branch& b : o.branches) area += b.area_mm2;
    CHECK(area == Approx(36 * 34 - 30 * 28));
    CHECK(o.longest_wait_in_turn_s < 20); // both ends are kept going
}

TEST_CASE("a hand begins at the upper end, or of level ends at the one beside the other hand", "[law][reference]") {
    std::vector<std::string> rows(50, std::string(50, '.'));
    for (int k = 2; k < 48; ++k) // from the lower left to the upper right
        for (int w = -2; w <= 2; ++w) rows[49 - k][std::clamp(k + w, 0, 49)] = 'd';
    const Order slope = order_of(Scene(rows), {.cell_mm = 1});
    CHECK(slope.start.x_mm > 40);
    CHECK(slope.start.y_mm == 2.5);

    const Scene level({"..............................", //
                       ".dddddddddddddddddddddddddddd.", //
                       ".dddddddddddddddddddddddddddd."});
    CHECK(order_of(level, {.cell_mm = 1}).start.x_mm == 1.5);
    CHECK(order_of(level, {.hand = Hand::left, .cell_mm = 1}).start.x_mm == 28.5);
    CHECK(order_of(level, {.cell_mm = 1}).length_mm == Approx(27).margin(0.5));

    // An arch: its top is no end, however high.
    std::vector<std::string> arch(40, std::string(60, '.'));
    for (int y = 0; y < 40; ++y)
        for (int x = 0; x < 60; ++x)
            if (const double r = std::hypot(x - 29.5, y - 38.0); r > 26 && r < 32 && y < 39) arch[y][x] = 'm';
    const Order over = order_of(Scene(arch), {.cell_mm = 1});
    CHECK(over.start.x_mm < 5);
    CHECK(over.start.y_mm > 35);
    CHECK(over.branches.size() == 1);
}

TEST_CASE("a higher end is begun at unless the way from there is short", "[law][reference]") {
    // A bar of 60 × 4 with a short arm upwards: from an arm in the middle two fronts would part, each half as long.
    const auto bar = [](int stub_x) {
        std::vector<std::string> rows(30, std::string(64, '.'));
        for (int y = 0; y < 30; ++y)
            for (int x = 0; x < 64; ++x)
                if ((y >= 24 && y < 28 && x >= 2 && x < 62) || (y >= 12 && y < 24 && x >= stub_x && x < stub_x + 4))
                    rows[y][x] = 'd';
        return order_of(Scene(rows), {.cell_mm = 1, .band_mm = 2, .branch_mm2 = 12, .branch_mm = 4}).start;
    };
    CHECK(bar(31).y_mm > 24);
    CHECK(bar(31).x_mm == 2.5);
    for (const int x : {15, 45}) { // not of the longest way, but of one nearly as long
        CHECK(bar(x).y_mm == 12.5);
        CHECK(bar(x).x_mm == Approx(x + 2).margin(2));
    }
}

TEST_CASE("a start that the painter sets is taken from the nearest place of the shape", "[law][reference]") {
    const Scene s = forked();
    const Order o = order_of(s, from(25.9, 45.9));
    CHECK(o.start.x_mm == 22.5);
    CHECK(o.start.y_mm == 43.5);
    CHECK(order_of(s, from(-1000, 16.5)).start.x_mm == 0.5);
}

TEST_CASE("a mirrored picture is painted the mirrored way by the other hand", "[law][reference]") {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        const Scene s = tests::islands(60, 40, 30, seed), t = s.mirrored();
        Ordering left = fine;
        left.branch_mm2 = 6, left.branch_mm = 4;
        Ordering right = left;
        left.hand = Hand::left;
        const Order a = order_of(s, right), b = order_of(t, left);
        CHECK(a.start.x_mm == 60 - b.start.x_mm);
        CHECK(a.start.y_mm == b.start.y_mm);
        CHECK(a.length_mm == b.length_mm);
        CHECK(a.longest_wait_s == Approx(b.longest_wait_s));
        REQUIRE(a.branches.size() == b.branches.size());
        for (std::size_t k = 0; k < a.branches.size(); ++k) CHECK(a.branches[k].area_mm2 == b.branches[k].area_mm2);
    }
}

TEST_CASE("finer pixels change the order little, cells taken together nothing but detail", "[law][reference]") {
    const Scene s = forked(), fine_scene = s.enlarged(4);
    const Ordering how{.cell_mm = 0.5, .band_mm = 2, .branch_mm2 = 10, .branch_mm = 4};
    const Order a = order_of(s, how), b = order_of(fine_scene, how, 4);
    CHECK(b.cell_mm == 0.5);
    CHECK(b.area_mm2 == a.area_mm2);
    CHECK(b.length_mm == Approx(a.length_mm).margin(1.5));
    CHECK(b.branches.size() == a.branches.size());
    double area = 0;
    for (const Branch& branch : b.branches) area += branch.area_mm2;
    CHECK(area == Approx(b.area_mm2));
}

TEST_CASE("no shape has no order, and one pixel is begun and done", "[law][reference]") {
    for (const Scene& s : {Scene({"....", "...."}), Scene({"."}), Scene({})}) {
        const Order o = order_of(s, fine);
        CHECK(o.branches.empty());
        CHECK(o.way.empty());
        CHECK(o.length_mm == 0);
        CHECK(o.minutes == 0);
    }
    const Order o = order_of(Scene({"...", ".d.", "..."}), fine);
    REQUIRE(o.branches.size() == 1);
    CHECK(o.start.x_mm == 1.5);
    CHECK(o.length_mm == 0);
    CHECK(o.way.size() == 1);
    CHECK(o.branches[0].area_mm2 == 1);
}

TEST_CASE("a place is painted in its branch's time, the farther the later, and as much at any time as the pace lays",
          "[law][reference]") {
    for (const Scene& s : {forked(), ring(), tests::islands(60, 50, 60, 3)}) {
        const Order o = order_of(s, fine);
        REQUIRE(o.painted_s.size() == o.branch_of.size());
        std::vector<float> all;
        for (std::size_t c = 0; c < o.painted_s.size(); ++c) {
            if (o.branch_of[c] < 0) {
                REQUIRE(o.painted_s[c] == grid::Geodesic::unreached);
                continue;
            }
            const Branch& b = o.branches[o.branch_of[c]];
            REQUIRE(o.painted_s[c] > b.begin_s);
            REQUIRE(o.painted_s[c] < b.end_s);
            all.push_back(o.painted_s[c]);
            for (std::size_t d = 0; d < c; ++d)
                if (o.branch_of[d] == o.branch_of[c] && o.far_mm[d] < o.far_mm[c]) REQUIRE(o.painted_s[d] < o.painted_s[c]);
        }
        std::sort(all.begin(), all.end()); // of 1 mm2 each, one a second
        for (std::size_t k = 0; k < all.size(); ++k) CHECK(all[k] == Approx(k + 0.5).margin(3)); // a front of 6 at a time
    }
}
