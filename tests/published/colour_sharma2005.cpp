// Source: Sharma, Wu & Dalal 2005, Color Res. Appl. 30, 21-30, table 1.
#include "colour/lab.h"
#include "grid/csv.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <lcms2.h>
#include <random>

using namespace tidemark;
using colour::Lab;
using published::Check;

TEST_CASE("ciede2000 gives all 34 pairs of Sharma, Wu and Dalal", "[published][colour]") {
    const auto table = grid::CsvTable::read(TIDEMARK_TESTS_DIR "/published/data/ciede2000_sharma.csv");
    REQUIRE(table.rows() == 34);
    for (std::size_t r = 0; r < table.rows(); ++r) {
        const auto number = [&](const char* column) { return table.number(r, column); };
        const Lab one{number("L1"), number("a1"), number("b1")}, two{number("L2"), number("a2"), number("b2")};
        INFO("pair " << r + 1);
        // Half of the last printed digit.
        Check{"colour difference ΔE00, all pairs", "Sharma, Wu & Dalal 2005"}.near(
            number("dE00"), colour::delta_e_2000(one, two), 5.1e-5);
        CHECK(colour::delta_e_2000(one, two) == Approx(colour::delta_e_2000(two, one)).epsilon(0).margin(1e-12));
    }
}

TEST_CASE("ciede2000 agrees with lcms2 all over the colour space", "[published][colour]") {
    std::mt19937 random(20);
    const auto draw = [&random](double low, double high) {
        return low + (high - low) * (static_cast<double>(random()) / 4294967296.0);
    };
    double apart = 0;
    for (int k = 0; k < 5000; ++k) {
        const Lab one{draw(0, 100), draw(-90, 90), draw(-90, 90)};
        const double reach = k % 2 == 0 ? 5 : 90; // near neighbours as well as far ones
        const Lab two{one.L * 0.5 + 25, one.a + draw(-reach, reach), one.b + draw(-reach, reach)};
        const cmsCIELab a{one.L, one.a, one.b}, b{two.L, two.a, two.b};
        INFO(one.a << ' ' << one.b << " and " << two.a << ' ' << two.b);
        const double ours = colour::delta_e_2000(one, two), theirs = cmsCIE2000DeltaE(&a, &b, 1, 1, 1);
        REQUIRE(ours == Approx(theirs).epsilon(1e-9));
        apart = std::max(apart, std::abs(ours / theirs - 1));
    }
    Check{"ΔE00 against another program, 5000 pairs: largest share", "lcms2"}.at_most(1e-9, apart);
}
