// What the solver's rows and its choice of cells rest on.
#include "water/parted.h"
#include "water/stubborn.h"

#include <catch2/catch.hpp>
#include <numeric>
#include <set>
#include <vector>

using namespace tidemark;

TEST_CASE("a row parted by columns and joined again is the row, of even and of odd length", "[law][water]") {
    for (int n : {2, 5, 32, 45}) {
        std::vector<float> row(n), back(n, -1.0f);
        std::iota(row.begin(), row.end(), 1.0f);
        water::PartedField field;
        field.resize(n, 3);
        water::part_row(row.data(), field.even(1), field.odd(1), 0, n);
        water::join_row(field.even(1), field.odd(1), back.data(), 0, n);
        CHECK(back == row);
        CHECK(field.even(1)[0] == 1.0f);
        CHECK(field.odd(1)[0] == 2.0f);
        CHECK(field.odd(1)[-1] == 0.0f);            // ghosts are not written
        CHECK(field.even(1)[(n + 1) / 2] == 0.0f);
    }
}

namespace {

/// A field of residuals, 160 × 160 cells, with the given patches at 1 and the rest at 1e-3.
void look(water::Stubborn& s, const std::set<std::pair<int, int>>& high) {
    for (int y = 0; y < 20; ++y)
        for (int x = 0; x < 20; ++x)
            s.row_worst(y)[x] = high.count({x, y}) ? 1.0f : 1e-3f;
}

} // namespace

TEST_CASE("only what a cycle has hardly lessened is stubborn", "[law][water]") {
    water::Stubborn s(160, 160);
    s.start();
    look(s, {{3, 3}, {15, 15}});
    CHECK(s.find(0.1f).empty()); // nothing is known of the cycle before
    look(s, {{3, 3}});           // the other has come down
    const auto& parts = s.find(0.1f);
    REQUIRE(parts.size() == 1);
    for (const auto& r : parts[0]) {
        CHECK((r.j >= 16 && r.j < 40)); // patches 2 to 4
        CHECK((r.begin == 16 && r.end == 40));
    }
    CHECK(parts[0].size() == 24);
    s.start();
    look(s, {{3, 3}});
    CHECK(s.find(0.1f).empty());
}

TEST_CASE("stubborn parts that would touch are one", "[law][water]") {
    for (auto [x, count] : {std::pair{6, 1}, std::pair{7, 2}}) { // patches 2 to 4 and x-1 to x+1
        water::Stubborn s(160, 160);
        s.start();
        for (int n = 0; n < 2; ++n)
            look(s, {{3, 3}, {x, 3}}), s.find(0.1f);
        look(s, {{3, 3}, {x, 3}});
        CHECK(s.find(0.1f).size() == static_cast<std::size_t>(count));
    }
}

TEST_CASE("when much of the sheet stands still nothing is picked out", "[law][water]") {
    water::Stubborn s(160, 160);
    std::set<std::pair<int, int>> many;
    for (int k = 0; k < 20; ++k)
        many.insert({k, (7 * k) % 20});
    s.start();
    for (int n = 0; n < 2; ++n)
        look(s, many), s.find(0.1f);
    look(s, many);
    CHECK(s.find(0.1f).empty());
}
