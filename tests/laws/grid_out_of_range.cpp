// What is said of a number out of range, and that the ends are in.
#include "grid/within.h"

#include "support/refused.h"

#include <limits>

using namespace tidemark;
using grid::within;
using scene::said;

TEST_CASE("a number out of range is named with its value, its unit and what is allowed", "[law][grid]") {
    const grid::Allowed cell{0.01, 100, "mm", 1e-3}, share{0, 1}, drag{-10, 10, "Pa"};
    CHECK(said([&] { within("cell_m", 0, cell); }) == "cell_m is 0 mm; allowed: 0.01 to 100 mm");
    CHECK(said([&] { within("cell_m", 0.2, cell); }) == "cell_m is 200 mm; allowed: 0.01 to 100 mm");
    CHECK(said([&] { within("share", 1.5, share); }) == "share is 1.5; allowed: 0 to 1");
    CHECK(said([&] { within("drag", -11, drag); }) == "drag is -11 Pa; allowed: -10 to 10 Pa");
    CHECK(said([&] { within("share", std::nan(""), share); }) == "share is nan; allowed: 0 to 1");
    CHECK(said([&] { within("share", std::numeric_limits<double>::infinity(), share); }) ==
          "share is inf; allowed: 0 to 1");
}

TEST_CASE("a range holds its ends, also when they went through another unit, and nothing beyond", "[law][grid]") {
    for (const double lo : {-3.0, 0.0, 0.1, 0.3, 7.0})
        for (const double si : {1.0, 1e-3, 1e-6, 1e-9}) {
            const grid::Allowed allowed{lo, lo + 0.7, "", si};
            CHECK(said([&] { within("x", lo / (1 / si), allowed); }) == "");
            CHECK(said([&] { within("x", (lo + 0.7) / (1 / si), allowed); }) == "");
            CHECK(said([&] { within("x", (lo - 1e-9) * si, allowed); }) != "");
            CHECK(said([&] { within("x", (lo + 0.7 + 1e-9) * si, allowed); }) != "");
        }
    CHECK(said([] { within("dt_s", -1e-300, grid::step_of_time); }) != ""); // 0 is 0
}
