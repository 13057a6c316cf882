#include "colour/lab.h"
#include "report/enlarge.h"
#include "report/lettering_detail.h"
#include "report/value_compare.h"

#include <catch2/catch.hpp>
#include <cstring>
#include <set>

using namespace tidemark;

namespace {

grid::Picture of_columns(const std::vector<std::uint8_t>& greys, int height) {
    grid::Picture p{static_cast<int>(greys.size()), height, {}};
    for (int y = 0; y < height; ++y)
        for (const std::uint8_t g : greys)
            p.rgb.insert(p.rgb.end(), {g, g, g});
    return p;
}

double lightness(report::Tone t) { return colour::lstar_from_srgb({t.r, t.g, t.b}); }

} // namespace

TEST_CASE("enlarging keeps a constant, whatever its code", "[law][report]") {
    for (int code = 0; code < 256; ++code) {
        const auto p =
            report::enlarged(of_columns({std::uint8_t(code), std::uint8_t(code), std::uint8_t(code)}, 2), 3);
        CHECK(std::set<std::uint8_t>(p.rgb.begin(), p.rgb.end()) == std::set<std::uint8_t>{std::uint8_t(code)});
    }
}

TEST_CASE("an enlarged edge rises steadily, with no line beside it", "[law][report]") {
    const auto p = report::enlarged(of_columns({40, 40, 40, 220, 220, 220}, 3), 4);
    REQUIRE(p.width == 24);
    REQUIRE(p.height == 12);
    for (int x = 1; x < p.width; ++x)
        CHECK(p.at(x, 5)[0] >= p.at(x - 1, 5)[0]);
    CHECK(p.at(0, 0)[0] == 40);
    CHECK(p.at(9, 0)[0] == 40); // the last pixel wholly on that side of the cell's middle
    CHECK(p.at(23, 0)[0] == 220);
}

TEST_CASE("enlarging a mirrored picture mirrors the result", "[law][report]") {
    const auto a = report::enlarged(of_columns({10, 200, 90, 30, 250}, 2), 4);
    const auto b = report::enlarged(of_columns({250, 30, 90, 200, 10}, 2), 4);
    for (int x = 0; x < a.width; ++x)
        CHECK(std::abs(a.at(x, 3)[1] - b.at(a.width - 1 - x, 3)[1]) <= 1); // sums in another order may round apart
}

TEST_CASE("the enlargement follows the cell and stays within its size", "[law][report]") {
    CHECK(report::enlargement(760, 560, 0.5e-3, 8) == 4);
    CHECK(report::enlargement(760, 560, 0.25e-3, 8) == 2);
    CHECK(report::enlargement(5000, 4000, 0.25e-3, 8) == 1);
    CHECK(report::enlargement(10, 10, 4e-3, 8) == 16);
}

TEST_CASE("a difference reads by lightness alone", "[law][report]") {
    for (double d = -40; d < 40; d += 1)
        CHECK(lightness(report::difference_tone(d + 1)) > lightness(report::difference_tone(d)));
    CHECK(lightness(report::difference_tone(-60)) == Approx(0).margin(0.01));
    CHECK(lightness(report::difference_tone(60)) == Approx(100).margin(0.01));
    const auto none = report::difference_tone(0);
    CHECK((none.r == none.g && none.g == none.b));
}

TEST_CASE("the comparison shows reference, sheet and difference in place", "[law][report]") {
    judge::Values v;
    v.has_reference = true, v.right_share = 0.5;
    v.reference_L = {40, 30, std::vector<float>(1200, 90)};
    v.reference_groups = reference::group_with(v.reference_L, std::vector<float>{50});
    const reference::ValueMap sheet{40, 30, std::vector<float>(1200, 40)};
    v.sheet_groups = reference::group_with(sheet, std::vector<float>{50});
    v.groups = {{0, 50, 0, 1, 30, 40}, {50, 100, 1, 0, 90, 0}};
    const auto p = report::value_compare(v, grid::Field<float>(40, 30, 40));
    const int y = p.height / 2;
    const auto L = [&](int x) { return colour::lstar_from_srgb({p.at(x, y)[0], p.at(x, y)[1], p.at(x, y)[2]}); };
    CHECK(L(p.width / 6) == Approx(90).margin(0.5));    // its group's mean
    CHECK(L(p.width / 2) == Approx(30).margin(0.5));    // the reference's mean of the group that the sheet fell into
    CHECK(L(5 * p.width / 6) == Approx(0).margin(0.5)); // 50 darker
    CHECK(L(2) > 95);                                   // a margin of paper
}

TEST_CASE("every letter has nine rows of five and a shape of its own", "[law][report]") {
    std::set<std::string> shapes;
    int count = 0;
    for (const report::Letter* l = report::letters; l->rows != nullptr; ++l, ++count) {
        CAPTURE(l->character);
        REQUIRE(std::strlen(l->rows) == 9 * 6 - 1);
        CHECK(std::string(l->rows).find_first_not_of(".# ") == std::string::npos);
        shapes.insert(l->rows);
    }
    CHECK(static_cast<int>(shapes.size()) == count);
    for (const char* c = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"; *c != 0; ++c) {
        grid::Picture drawn{6, 9, std::vector<std::uint8_t>(6 * 9 * 3, 255)}, unknown = drawn;
        report::draw_text(drawn, 0, 0, std::string(1, *c), 1, 0);
        report::draw_text(unknown, 0, 0, "\x01", 1, 0);
        CHECK(drawn.rgb != unknown.rgb);
    }
}

TEST_CASE("text that leaves the picture is cut off", "[law][report]") {
    grid::Picture p{8, 8, std::vector<std::uint8_t>(8 * 8 * 3, 255)};
    report::draw_text(p, -3, -4, "sheet", 2, 0);
    report::draw_text(p, 6, 6, "sheet", 2, 0);
    CHECK(report::text_width("sheet", 2) == 58);
}
