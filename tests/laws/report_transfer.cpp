// The drawing aid measures true, on paper and on the screen.
#include "grid/picture.h"
#include "report/transfer.h"
#include "support/temporary_folder.h"

#include <zlib.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <regex>

using namespace tidemark;
using namespace tidemark::report;
using reference::PointMm;

namespace {

TransferSheet squares_only(double width_mm, double height_mm, double square_mm) {
    TransferSheet sheet;
    sheet.width_mm = width_mm, sheet.height_mm = height_mm, sheet.square_mm = square_mm;
    return sheet;
}

std::string text_of(const std::vector<std::uint8_t>& bytes) { return {bytes.begin(), bytes.end()}; }

/// The page of a PDF: what its first stream inflates to.
std::string page_of(const std::string& pdf) {
    const std::size_t at = pdf.find("stream\n") + 7;
    std::string page(1 << 20, '\0');
    uLongf size = page.size();
    REQUIRE(uncompress(reinterpret_cast<Bytef*>(page.data()), &size, reinterpret_cast<const Bytef*>(pdf.data()) + at,
                       pdf.find("endstream", at) - at) == Z_OK);
    page.resize(size);
    return page;
}

std::vector<std::vector<double>> all_matches(const std::string& text, const std::string& pattern) {
    std::vector<std::vector<double>> found;
    const std::regex regex(pattern);
    for (std::sregex_iterator it(text.begin(), text.end(), regex), end; it != end; ++it) {
        found.emplace_back();
        for (std::size_t k = 1; k < it->size(); ++k) found.back().push_back(std::stod((*it)[k]));
    }
    return found;
}

const std::string number = "(-?[0-9.]+)", gap = "\\s+";

/// Middles of the dark stretches of a row or column of pixels, in pixels.
std::vector<double> lines_along(const grid::Picture& p, bool across, int at) {
    std::vector<double> middles;
    double weight = 0, sum = 0;
    const int length = across ? p.width : p.height;
    for (int k = 0; k <= length; ++k) {
        const std::uint8_t* c = k == length ? nullptr : across ? p.at(k, at) : p.at(at, k);
        const double ink = c == nullptr ? 0 : 255 - c[0];
        if (ink > 0) {
            weight += ink, sum += ink * (k + 0.5);
        } else if (weight > 0) {
            middles.push_back(sum / weight);
            weight = sum = 0;
        }
    }
    return middles;
}

} // namespace

TEST_CASE("the squares of a PNG measure true at 300 pixels an inch, from one edge to the other", "[law][report]") {
    const double w = 383, h = 281, side = 37.5;
    const auto bytes = png_bytes(transfer_drawing(squares_only(w, h, side)));
    const tests::TemporaryFolder folder;
    const grid::Picture p = grid::read_picture(folder.put("t.png", bytes));
    CHECK(p.width == std::lround(w / 25.4 * 300));
    CHECK(p.height == std::lround(h / 25.4 * 300));
    const std::size_t phys = text_of(bytes).find("pHYs");
    REQUIRE(phys != std::string::npos);
    const std::vector<std::uint8_t> per_m{0, 0, 0x2E, 0x23, 0, 0, 0x2E, 0x23, 1}; // 11811 a metre
    CHECK(std::equal(per_m.begin(), per_m.end(), bytes.begin() + static_cast<long>(phys) + 4));
    for (const bool across : {true, false}) {
        // Where neither letters nor other lines are: a tenth of a square behind a line.
        const int at = static_cast<int>((2.1 * side) / 25.4 * 300);
        const std::vector<double> middles = lines_along(p, across, at);
        const int inner = static_cast<int>((across ? w : h) / side);
        REQUIRE(static_cast<int>(middles.size()) == inner + 2); // and the sheet's two edges
        for (int k = 1; k <= inner; ++k) CHECK(std::fabs(middles[k] - k * side / 25.4 * 300) < 1);
    }
}

TEST_CASE("the squares of an SVG stand in mm", "[law][report]") {
    const std::string svg = text_of(svg_bytes(transfer_drawing(squares_only(383, 281, 37.5))));
    CHECK_THAT(svg, Catch::Contains("width=\"383mm\" height=\"281mm\" viewBox=\"0 0 383 281\""));
    const auto upright = all_matches(svg, "M " + number + " 0 L " + number + " 281 "),
               level = all_matches(svg, "M 0 " + number + " L 383 " + number + " (?=M)");
    REQUIRE(upright.size() == 10);
    REQUIRE(level.size() == 7);
    for (std::size_t k = 0; k < upright.size(); ++k)
        for (const double x : upright[k]) CHECK(x == Approx(37.5 * static_cast<double>(k + 1)).margin(1 / 256.0));
    for (std::size_t k = 0; k < level.size(); ++k)
        for (const double y : level[k]) CHECK(y == Approx(37.5 * static_cast<double>(k + 1)).margin(1 / 256.0));
}

TEST_CASE("the squares of a PDF stand in points, 72 to an inch", "[law][report]") {
    const std::string pdf = text_of(pdf_bytes(transfer_drawing(squares_only(383, 281, 37.5))));
    const double point = 72 / 25.4;
    const auto box = all_matches(pdf, "/MediaBox \\[ 0 0 " + number + " " + number + " \\]");
    REQUIRE(box.size() == 1);
    CHECK(box[0][0] == Approx(383 * point).margin(0.001));
    CHECK(box[0][1] == Approx(281 * point).margin(0.001));
    // Lines over the sheet's whole height or width, in whatever direction y is counted.
    int upright = 0, level = 0;
    for (const auto& l : all_matches(page_of(pdf), number + gap + number + gap + "m" + gap + number + gap + number + gap + "l")) {
        if (std::fabs(std::fabs(l[3] - l[1]) - 281 * point) < 0.01 && l[0] == l[2])
            CHECK(l[0] == Approx(37.5 * point * ++upright).margin(1 / 128.0));
        if (std::fabs(std::fabs(l[2] - l[0]) - 383 * point) < 0.01 && l[1] == l[3] && l[1] != 0) { // 0: the edge
            const double from_top = 37.5 * point * ++level; // the page may be drawn upside down
            CHECK(std::min(std::fabs(l[1] - from_top), std::fabs(281 * point - l[1] - from_top)) < 1 / 128.0);
        }
    }
    CHECK(upright == 10);
    CHECK(level == 7);
    CHECK(pdf.find("CreationDate") == std::string::npos);
}

TEST_CASE("outlines come onto the page where they lie on the sheet, and nothing on it is a tone", "[law][report]") {
    TransferSheet sheet = squares_only(60, 40, 60);
    sheet.outlines = {{{{20, 10}, {40, 10}, {40, 30}, {20, 30}}, true}, {{{10, 20}, {10, 35}}, false}};
    const tests::TemporaryFolder folder;
    const grid::Picture p = grid::read_picture(folder.put("t.png", png_bytes(transfer_drawing(sheet))));
    const auto dark = [&](double x, double y) {
        return p.at(static_cast<int>(x / 25.4 * 300), static_cast<int>(y / 25.4 * 300))[0] < 100;
    };
    for (const auto& [x, y] : {std::pair(20, 20), std::pair(30, 10), std::pair(40, 20), std::pair(30, 30), std::pair(10, 30)})
        CHECK(dark(x, y));
    for (const auto& [x, y] : {std::pair(30, 20), std::pair(10, 15), std::pair(50, 20)}) CHECK_FALSE(dark(x, y));
    std::size_t white = 0;
    for (std::size_t k = 0; k < p.rgb.size(); k += 3) white += p.rgb[k] == 255 && p.rgb[k + 1] == 255;
    CHECK(static_cast<double>(white) > 0.95 * static_cast<double>(p.rgb.size()) / 3);
}

TEST_CASE("the usual squares are four or nearly along the longer side", "[law][report]") {
    CHECK(usual_square_mm(380, 280) == 95);
    CHECK(usual_square_mm(280, 175) == 70);
    CHECK(usual_square_mm(560, 760) == 190);
    for (int longer = 30; longer <= 1200; ++longer) {
        const double side = usual_square_mm(longer, 30);
        CHECK(side == 5 * std::round(side / 5));
        const int along = squares_along(longer, side);
        CHECK(along >= 3);
        CHECK(along <= (longer < 50 ? 7 : 5));
    }
    CHECK(squares_along(380, 95) == 4);
    CHECK(squares_along(281, 95) == 3);
}

TEST_CASE("a head is held to the eye line within a millimetre", "[law][report]") {
    const PointMm heads[] = {{10, 100}, {20, 101}, {30, 101.1}, {40, 92.5}};
    const auto checks = check_heads(heads, 100);
    CHECK(checks[0].on_line);
    CHECK(checks[1].on_line);
    CHECK_FALSE(checks[2].on_line);
    CHECK(checks[2].below_mm == Approx(1.1));
    CHECK_FALSE(checks[3].on_line);
    CHECK(checks[3].below_mm == Approx(-7.5));

    // The one off the line has its way to the line drawn.
    TransferSheet sheet = squares_only(60, 130, 60);
    sheet.eye_line_mm = 100;
    sheet.heads = {{30, 80}};
    const LineDrawing drawing = transfer_drawing(sheet);
    CHECK(std::any_of(drawing.strokes.begin(), drawing.strokes.end(), [](const Stroke& s) {
        return s.points == std::vector<PointMm>{{30, 80}, {30, 100}};
    }));
}

TEST_CASE("a picture whose name is no UTF-8 gives a PDF, with a title that is", "[wrong][report]") {
    TransferSheet sheet = squares_only(100, 80, 40);
    sheet.title = "two-pears.jpg";
    CHECK(text_of(pdf_bytes(transfer_drawing(sheet))).find("/Title (two-pears.jpg)") != std::string::npos);
    sheet.title = "na\xe9me\n.jpg";
    CHECK(text_of(pdf_bytes(transfer_drawing(sheet))).find("/Title (na?me?.jpg)") != std::string::npos);
    sheet.title = "caf\u00e9"; // in UTF-16, with its mark
    CHECK(text_of(pdf_bytes(transfer_drawing(sheet))).find("/Title <FEFF00630061006600E9>") != std::string::npos);
}
