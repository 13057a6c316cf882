// When the sheet itself was tried, what a patch of it had shown gives way.
#include "advice/moments.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace tidemark;

namespace {

/// A wash at 10:00, its edge not as wanted; on a patch it was as wanted when begun by 7:00, on the sheet by 3:00 alone.
struct Late {
    advice::Timing timing;
    advice::Outcome found;

    Late() {
        timing.want = 0, timing.step = 1, timing.planned_s = 600, timing.alike = true;
        timing.moment.after = 0;
        timing.tries = {{180, edge("soft"), true}, {420, edge("soft"), true}, {600, edge("hard"), false}};
        found.edges = {edge("hard")}, found.wants = {{0, false, {}}};
        found.start_s = {0, 600}, found.end_s = {60, 660};
    }
    static judge::Edge edge(const std::string& word) {
        judge::Edge e;
        e.step = 1, e.word = word;
        return e;
    }
    const judge::Moment& held_to(const std::vector<advice::Tried>& on_sheet) {
        advice::hold_to_sheet(timing, found, on_sheet, 1e-3);
        return timing.moment;
    }
};

} // namespace

TEST_CASE("where a moment on the sheet has another verdict than on the patch, the sheet's moments alone are told", "[law][advice]") {
    Late late;
    const judge::Moment& m = late.held_to({{180, Late::edge("soft"), true}, {420, Late::edge("hard"), false}});
    CHECK(m.any);
    CHECK(m.latest_min == Approx(3));
    CHECK(std::isnan(m.earliest_min));
    CHECK(m.says == "until 3:00");
    CHECK(m.cell_mm == Approx(1));
}

TEST_CASE("where the sheet agrees with the patch, the patch's moments stay", "[law][advice]") {
    Late late;
    late.held_to({{180, Late::edge("soft"), true}, {300, Late::edge("soft"), true}});
    CHECK(late.timing.tries.size() == 3);
    CHECK(late.timing.tries[1].start_s == Approx(420));
}

TEST_CASE("where the patch has another edge altogether, the sheet's moments are told", "[law][advice]") {
    Late late;
    late.timing.alike = false, late.timing.tries.clear();
    const judge::Moment& m = late.held_to({{180, Late::edge("hard"), false}});
    CHECK_FALSE(m.any);
    CHECK(m.says == "at none of 2 moments tried, 3:00 to 10:00");
}
