// The same bytes with one thread and with two. The picture has more pixels than the 8192 from which work is shared out.
#include "grid/rows.h"
#include "reference/key.h"
#include "reference/masks.h"
#include "reference/outline.h"
#include "reference/squint.h"
#include "reference_pictures.h"

#include <catch2/catch.hpp>
#include <cstring>
#include <omp.h>

using namespace tidemark;
using namespace tidemark::reference;

namespace {

struct Everything {
    ValueMap map, small;
    SquintResult squinted;
    std::vector<grid::GreyPicture> masks;
    grid::Picture in_key;
    std::vector<Outline> lines;
};

Everything of(const grid::Picture& picture, int threads) {
    const int before = omp_get_max_threads();
    omp_set_num_threads(threads);
    Everything e;
    e.map = value_map(picture);
    e.small = resized(e.map, 211, 157);
    e.squinted = squint(e.map, 4, 3, {.crumb_mm2 = 2, .simplify_mm = 1, .keep_thin = true});
    e.masks = group_masks(e.squinted.groups);
    e.in_key = in_key(picture, key_of(picture));
    e.lines = outlines(e.squinted.masses, 75, 55);
    omp_set_num_threads(before);
    return e;
}

template <class T> bool same_bytes(const std::vector<T>& a, const std::vector<T>& b) {
    return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(T)) == 0;
}

} // namespace

TEST_CASE("squinting, masks, key and outlines are the same bytes with one thread and with two", "[law][reference]") {
    const grid::Picture picture = tests::landscape(301, 223, 30);
    REQUIRE(static_cast<long>(picture.width) * picture.height > grid::parallel_from_cells);
    const Everything one = of(picture, 1), two = of(picture, 2);
    REQUIRE(one.squinted.masses.list.size() > 2);
    REQUIRE(key_of(picture).moves()); // else it would be the picture
    CHECK(same_bytes(one.map.lstar, two.map.lstar));
    CHECK(same_bytes(one.small.lstar, two.small.lstar));
    CHECK(same_bytes(one.squinted.seen.lstar, two.squinted.seen.lstar));
    CHECK(same_bytes(one.squinted.groups.thresholds, two.squinted.groups.thresholds));
    CHECK(same_bytes(one.squinted.groups.mean_lstar, two.squinted.groups.mean_lstar));
    CHECK(same_bytes(one.squinted.groups.group, two.squinted.groups.group));
    CHECK(same_bytes(one.squinted.masses.of, two.squinted.masses.of));
    CHECK(same_bytes(one.in_key.rgb, two.in_key.rgb));
    REQUIRE(one.masks.size() == two.masks.size());
    for (std::size_t k = 0; k < one.masks.size(); ++k) CHECK(same_bytes(one.masks[k].value, two.masks[k].value));
    REQUIRE(one.lines.size() == two.lines.size());
    for (std::size_t k = 0; k < one.lines.size(); ++k) {
        CHECK(one.lines[k].ring == two.lines[k].ring);
        CHECK(same_bytes(one.lines[k].points, two.lines[k].points));
    }
}
