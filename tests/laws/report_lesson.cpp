// A lesson's page fits A4, and keeps its moments apart.
#include "report/lesson_pictures.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using report::LessonView;
using sheet::CellStage;

namespace {

std::vector<std::vector<LessonView>> moments(int count, int sheets, int width, int height) {
    std::vector<std::vector<LessonView>> out;
    for (int m = 0; m < count; ++m) {
        const auto grey = static_cast<std::uint8_t>(101 + 10 * m); // to be found again
        const LessonView view{{width, height, std::vector<std::uint8_t>(3 * static_cast<std::size_t>(width) * height, grey)}, 60.0 * m, CellStage::wet, m + 1 == count};
        out.push_back(std::vector<LessonView>(static_cast<std::size_t>(sheets), view));
    }
    return out;
}

long pixels_of(const grid::Picture& page, int grey) {
    long n = 0;
    for (std::size_t k = 0; k < page.rgb.size(); k += 3) n += page.rgb[k] == grey && page.rgb[k + 1] == grey && page.rgb[k + 2] == grey;
    return n;
}

} // namespace

TEST_CASE("every moment of a lesson stands on a page of A4, all of one size", "[law][report]") {
    for (const int sheets : {1, 2})
        for (const int count : {5, 6, 8})
            for (const auto& [width, height] : {std::pair{300, 170}, {340, 90}, {120, 240}}) {
                INFO(sheets << " sheets, " << count << " moments, " << width << " x " << height);
                const auto page = report::lesson_strip("Title", std::vector<std::string>(static_cast<std::size_t>(sheets), "caption"),
                                                       moments(count, sheets, width, height));
                CHECK(page.width / report::strip_pixels_per_m <= 0.2771);
                CHECK(page.height / report::strip_pixels_per_m <= 0.191);
                const long first = pixels_of(page, 101);
                CHECK(first > 4L * sheets * page.width * page.height / (100L * count * sheets)); // not lost in white
                for (int m = 1; m < count; ++m) CHECK(pixels_of(page, 101 + 10 * m) == first);
            }
}

TEST_CASE("a lesson says the minute and the stage of each moment", "[law][report]") {
    LessonView view{{}, 495, CellStage::moist, false};
    CHECK(report::words_of(view) == "8:15  moist");
    view.finished = true;
    CHECK(report::words_of(view) == "8:15  all dry");
    CHECK(report::stage_reached({0.6, 0.4, 0, 0}) == CellStage::wet);
    CHECK(report::stage_reached({0.4, 0.6, 0, 0}) == CellStage::moist);
    CHECK(report::stage_reached({0.1, 0.1, 0.8, 0}) == CellStage::damp);
    CHECK(report::stage_reached({0, 0, 0.06, 0.94}) == CellStage::damp);
    CHECK(report::stage_reached({0, 0, 0.04, 0.96}) == CellStage::dry);
}
