// lesson.toml: what is read from it, and the line for each mistake in it.
#include "grid/problem.h"
#include "plan/lesson.h"
#include "support/temporary_folder.h"

#include <catch2/catch.hpp>

using namespace tidemark;

namespace {

const std::string head = "tidemark = 1\nnumber = 3\ntitle = \"A bloom\"\n", times = "moments = [\"0:30\", \"2:00\", \"8:15\", \"20:00\"]\n";
const std::string sheet = "[[sheet]]\nplan = \"plan.toml\"\n";

/// All lines said of that text, without the folder's name.
std::string said(const std::string& text) {
    const tests::TemporaryFolder folder;
    folder.put("lesson.toml", text);
    try {
        plan::read_lesson(folder.path());
    } catch (const grid::BadInput& bad) {
        std::string lines;
        for (const grid::Problem& p : bad.problems()) {
            std::string line = p.line();
            line.erase(0, line.find("lesson.toml"));
            lines += line + "\n";
        }
        return lines;
    }
    return "";
}

} // namespace

TEST_CASE("a lesson has a title, moments and one or two sheets", "[plan]") {
    const tests::TemporaryFolder folder;
    folder.put("lesson.toml", head + times + "cell_mm = 1\n[[sheet]]\nplan = \"a.toml\"\ncaption = \"front\"\nwatch = \"open\"\n"
                                             "[[sheet]]\nplan = \"b.toml\"\ncaption = \"both\"\n");
    const plan::Lesson lesson = plan::read_lesson(folder.path());
    CHECK(lesson.number == 3);
    CHECK(lesson.title == "A bloom");
    CHECK(lesson.cell_mm == 1);
    CHECK(lesson.moments_s == std::vector<double>{30, 120, 495, 1200});
    REQUIRE(lesson.sheets.size() == 2);
    CHECK(lesson.sheets[0].plan == folder.path() / "a.toml");
    CHECK(lesson.sheets[0].watch == "open");
    CHECK_THAT(lesson.sheets[0].where, Catch::EndsWith("lesson.toml:9"));
    CHECK(lesson.sheets[1].caption == "both");
    CHECK(lesson.sheets[1].watch.empty());
    CHECK(plan::read_lessons(folder.path() / "none").empty());
}

TEST_CASE("each mistake in a lesson is one line", "[wrong][plan]") {
    const std::string allowed = "; allowed: 4 to 7 times in quotes, later and later, such as [\"2:00\", \"8:15\", \"20:00\", \"45:00\"]\n";
    CHECK(said(head + times + sheet) == "");
    CHECK(said(head + sheet) == "lesson.toml:1: moments is missing" + allowed);
    for (const char* list : {"[\"0:30\", \"2:00\", \"8:15\"]", "[\"0:30\", \"2:00\", \"1:15\", \"20:00\"]", "[\"0:00\", \"2:00\", \"3:15\", \"20:00\"]",
                             "[\"0:30\", 2, \"8:15\", \"20:00\"]", "[\"0:30\", \"soon\", \"8:15\", \"20:00\"]"})
        CHECK(said(head + "moments = " + list + "\n" + sheet) == "lesson.toml:4: moments is a list of another shape" + allowed);
    CHECK(said(head + "moments = 4\n" + sheet) == "lesson.toml:4: moments is 4 of another shape" + allowed);
    CHECK(said(head + times) == "lesson.toml:1: [[sheet]] is missing; allowed: one or two\n");
    CHECK_THAT(said(head + times + sheet + sheet), Catch::Contains("lesson.toml:5: [[sheet]]: caption is missing; allowed: "));
    CHECK_THAT(said(head + times + "[[sheet]]\nplan = \"../plan.toml\"\n"), Catch::StartsWith("lesson.toml:6: [[sheet]]: plan \"../plan.toml\" leaves the lesson's folder"));
    CHECK_THAT(said(head + times + "cells = 1\n" + sheet), Catch::Contains("cells"));
    CHECK_THAT(said("tidemark = 2\n" + times + sheet), Catch::StartsWith("lesson.toml:1: tidemark is 2; allowed: "));
}
