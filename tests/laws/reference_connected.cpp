/// The connected midtone shape on drawn scenes: one letter a pixel, '.' light, 'm' midtone, 'd' dark.
#include "grid/geodesic.h"
#include "reference/connected.h"
#include "reference_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::reference;
using tests::Scene;

namespace {

/// 1 mm a pixel, and all islands count.
Connected shape(const Scene& s, Connecting how = {.island_mm2 = 1}) { return connected_shape(s.masses, 1, how); }

} // namespace

TEST_CASE("midtones and darks that touch along a side are one piece, those at a corner are not", "[law][reference]") {
    const Scene s({"mmm.....", //
                   "mdd.....", //
                   "...dd...", //
                   "...dd...", //
                   "........"});
    const Connected c = shape(s);
    REQUIRE(c.pieces.size() == 2);
    CHECK(c.pieces[0].area_mm2 == 6);
    CHECK(c.pieces[0].masses.size() == 2);
    CHECK(c.pieces[1].area_mm2 == 4);
    CHECK(c.pieces[1].centre.x_mm == Approx(4));
    CHECK(c.pieces[1].centre.y_mm == Approx(3));
    CHECK(c.area_mm2 == 10);
    CHECK(c.share == Approx(0.6));
    CHECK(c.at(s.masses, 1, 1) == 0);
    CHECK(c.at(s.masses, 4, 3) == 1);
    CHECK(c.at(s.masses, 7, 0) == -1);
    REQUIRE(c.bridges.size() == 1); // over the corner
    CHECK(c.bridges[0].length_mm == Approx(std::sqrt(2) - 1));
    CHECK(c.bridges[0].contrast_lstar == Approx(90 - 20));
    CHECK(c.share_after == 1);
}

TEST_CASE("two lightest groups may count as light", "[law][reference]") {
    const Scene s({"..mmmm..", //
                   "..dmmd..", //
                   "..mmmm.."});
    CHECK(shape(s).pieces.size() == 1);
    const Connected dark = shape(s, {.light_from = 1, .island_mm2 = 1});
    REQUIRE(dark.pieces.size() == 2);
    CHECK(dark.area_mm2 == 2);
    REQUIRE(dark.bridges.size() == 1);
    CHECK(dark.bridges[0].length_mm == 2);
    CHECK(s.masses.list[dark.bridges[0].light].group == 1);
    CHECK(dark.bridges[0].contrast_lstar == Approx(50 - 20));
}

TEST_CASE("lights that the shape is painted round: which are enclosed, which only border on it", "[law][reference]") {
    const Scene s({".........", //
                   ".mmmmmmm.", //
                   ".m...m.m.", // one light with room, and a dark in it: an island, no way out
                   ".m.d.mmm.", //
                   ".m...mmm.", // and one light of a pixel
                   ".mmmmm.m.", // and one that is open below
                   ".......m."});
    const Connected c = shape(s, {.island_mm2 = 2});
    REQUIRE(c.pieces.size() == 2);
    CHECK(c.pieces[1].area_mm2 == 1);
    REQUIRE(c.round.size() == 3);
    CHECK_FALSE(c.round[0].enclosed);
    CHECK(c.round[0].area_mm2 == 9 + 2 * 5 + 8 + 1);
    CHECK(c.round[1].area_mm2 == 8);
    CHECK(c.round[1].enclosed);
    CHECK(c.round[1].border_mm == 12);
    CHECK(c.round[2].area_mm2 == 1);
    CHECK(c.round[2].enclosed);
    CHECK(c.round[2].border_mm == 4);
    CHECK(c.bridges.empty()); // the island is not worth it
}

TEST_CASE("bridges are the shortest that join all islands, nearest first, each from what is joined", "[law][reference]") {
    const Scene s({"mmmmmmm...........d.....", //
                   "mmmmmmm...........d.....", //
                   "mmmmmmm...dd...ddddd....", // 3 pixels of light, then 3, then
                   "mmmmmmm...dd...........d", // 3 from the lowest of the row above, over a corner
                   "mmmmmmm.................", //
                   "........................", //
                   "........................", //
                   "dd......................"});
    const Connected c = shape(s);
    REQUIRE(c.pieces.size() == 5);
    REQUIRE(c.bridges.size() == 4);
    const int right = c.at(s.masses, 18, 0), near = c.at(s.masses, 10, 2), far = c.at(s.masses, 23, 3),
              below = c.at(s.masses, 0, 7);
    CHECK(c.bridges[0].length_mm == 2);
    CHECK(c.bridges[0].island == below);
    CHECK(c.bridges[0].to == 0);
    CHECK(c.bridges[1].island == near);
    CHECK(c.bridges[1].to == 0);
    CHECK(c.bridges[1].length_mm == 3);
    CHECK(c.bridges[2].island == right);
    CHECK(c.bridges[2].to == near);
    CHECK(c.bridges[2].length_mm == 3);
    CHECK(c.bridges[3].island == far);
    CHECK(c.bridges[3].to == right);
    CHECK(c.bridges[3].length_mm == Approx(2 + std::sqrt(5) - 1)); // four columns on, one row down
    CHECK(c.share == Approx(35.0 / 49));
    CHECK(c.bridges[1].share_after == Approx(41.0 / 49));
    CHECK(c.share_after == 1);
    const Bridge& b = c.bridges[1];
    REQUIRE(b.way.size() >= 3);
    CHECK(b.way.front().x_mm == 10.5); // from the island
    CHECK(b.way.back().x_mm == 6.5);
    CHECK(s.masses.list[b.light].group == 2);
    CHECK(b.contrast_lstar == Approx(90 - 20));
    CHECK(shape(s, {.island_mm2 = 1, .bridge_mm = 2.5}).bridges.size() == 1);
    CHECK(shape(s, {.island_mm2 = 1, .bridges = 2}).bridges.size() == 2);
    CHECK(shape(s, {.island_mm2 = 1, .bridges = 2}).share_after == Approx(41.0 / 49));
    CHECK(shape(s, {.island_mm2 = 3}).bridges.size() == 2); // the far and the lower one are too small
}

TEST_CASE("bridges join islands with the least length there can be", "[law][reference]") {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        const Scene s = tests::islands(48, 36, 7, seed);
        const Connected c = shape(s, {.island_mm2 = 1, .bridge_mm = 100, .bridges = 100});
        REQUIRE(c.bridges.size() + 1 == c.pieces.size());
        double length = 0;
        for (const Bridge& b : c.bridges) length += b.length_mm;
        CHECK(length == Approx(tests::least_bridges(s.masses, c)).epsilon(1e-5));
        for (std::size_t k = 1; k < c.bridges.size(); ++k) {
            bool joined = c.bridges[k].to == 0;
            for (std::size_t i = 0; i < k; ++i) joined |= c.bridges[i].island == c.bridges[k].to;
            CHECK(joined);
        }
    }
}

TEST_CASE("a mirrored picture has the mirrored shape and bridges of the same length", "[law][reference]") {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        const Scene s = tests::islands(60, 40, 6, seed), t = s.mirrored();
        const Connected a = shape(s, {.island_mm2 = 3, .bridge_mm = 8}), b = shape(t, {.island_mm2 = 3, .bridge_mm = 8});
        REQUIRE(a.pieces.size() == b.pieces.size());
        for (std::size_t k = 0; k < a.pieces.size(); ++k) CHECK(a.pieces[k].area_mm2 == b.pieces[k].area_mm2);
        CHECK(a.pieces[0].centre.x_mm == Approx(60 - b.pieces[0].centre.x_mm));
        REQUIRE(a.round.size() == b.round.size());
        REQUIRE(a.bridges.size() == b.bridges.size());
        for (std::size_t k = 0; k < a.bridges.size(); ++k) {
            CHECK(a.bridges[k].length_mm == b.bridges[k].length_mm);
            CHECK(a.bridges[k].share_after == b.bridges[k].share_after);
        }
    }
}

TEST_CASE("a picture of one value, of one pixel, or of none has no shape", "[law][reference]") {
    for (const Scene& s : {Scene({"....", "...."}), Scene({"dddd"}), Scene({"."}), Scene({})}) {
        const Connected c = shape(s);
        CHECK(c.pieces.empty());
        CHECK(c.share == 0);
        CHECK(c.share_after == 0);
        CHECK(c.round.empty());
        CHECK(c.bridges.empty());
    }
    const Scene both({"..dd", "..dd"});
    CHECK(shape(both, {.light_from = 0}).pieces.empty()); // all is light
    const Connected dark = shape(both, {.light_from = 3, .island_mm2 = 1});
    CHECK(dark.share == 1); // nothing is
    CHECK(dark.round.empty());
    // And nothing but crumbs: every dark a pixel that no other touches.
    const Scene crumbs({"d.d.d", ".d.d.", "d.d.d"});
    const Connected c = shape(crumbs, {.island_mm2 = 1, .bridges = 100});
    CHECK(c.pieces.size() == 8);
    CHECK(c.share == Approx(1.0 / 8));
    CHECK(c.bridges.size() == 7);
    CHECK(c.share_after == Approx(1));
}
