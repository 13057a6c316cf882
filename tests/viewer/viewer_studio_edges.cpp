// The edges of a run as lines on the sheet; and what a draft's words for them are worth.
#include "viewer/studio/edge_list.h"
#include "viewer/studio/studio.h"
#include "studio_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::tests;
using namespace tidemark::viewer;

TEST_CASE("edges are lines along the outline, what is not as wanted first", "[law][viewer]") {
    const SmallPlan small;
    const auto run = small.run(1.5e-3);
    const auto outcome = run->outcome();
    REQUIRE(outcome);
    const auto lines = edge_lines(*outcome);
    REQUIRE_FALSE(lines.empty());
    double length_mm = 0;
    for (const EdgeLine& l : lines) {
        if (l.between != "hills | sky") continue;
        CHECK(l.wanted == "soft");
        CHECK(l.as_wanted == (l.word == "soft"));
        CHECK_FALSE(l.draft);
        for (const judge::Place_mm& p : l.line) CHECK(p.y_mm == Approx(20).margin(1.5)); // the mask's upper border
        for (std::size_t k = 1; k < l.line.size(); ++k)
            CHECK(std::hypot(l.line[k].x_mm - l.line[k - 1].x_mm, l.line[k].y_mm - l.line[k - 1].y_mm) < 2.5);
        length_mm += l.length_mm;
    }
    CHECK(length_mm > 45);
    for (std::size_t k = 1; k < lines.size(); ++k) CHECK((!lines[k - 1].as_wanted || lines[k].as_wanted));
    const std::size_t asked = edges_asked(lines);
    CHECK(asked > 0);
    for (std::size_t k = 0; k < lines.size(); ++k) CHECK(lines[k].wanted.empty() == (k >= asked));
    CHECK(edges_sentence(*outcome).find("of 1 as wanted") != std::string::npos);
    Outcome draft = *outcome;
    draft.draft = true;
    CHECK(edge_lines(draft)[0].draft);
    CHECK_FALSE(edges_caution(draft).empty());
    CHECK(place_words(10, 10, 90, 60) == "upper left");
    CHECK(place_words(80, 30, 90, 60) == "right of the middle");
    CHECK(place_words(45, 59, 90, 60) == "at the foot");
}

TEST_CASE("how often the words of drafts are those of true cells, over the demo plans", "[behaviour][viewer][long]") {
    const auto presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    int asked = 0, same[2] = {0, 0}, near[2] = {0, 0};
    const std::vector<std::string> words{"hard", "firm", "soft", "lost"};
    for (const char* name : {"two-pears", "orchard"}) {
        const auto plan = std::make_shared<const plan::Plan>(plan::read_plan(std::filesystem::path(TIDEMARK_PRESETS_DIR) / "plans" / name / "plan.toml", presets));
        const auto of = [&](double cell_m) {
            const auto run = Run::begin({.plan = plan, .cell_m = cell_m});
            run->wait();
            REQUIRE(run->outcome());
            return run->outcome();
        };
        const auto truth = of(0.5e-3);
        const double cells[] = {draft_cell_m(*plan), middle_cell_m};
        for (int k = 0; k < 2; ++k) {
            const auto draft = of(cells[k]);
            for (const judge::Edge& t : truth->verdicts.edges) {
                if (t.wanted.empty()) continue;
                if (k == 0) ++asked;
                for (const judge::Edge& d : draft->verdicts.edges)
                    if (d.step == t.step && d.neighbour == t.neighbour) {
                        const auto at = [&](const std::string& w) { return std::find(words.begin(), words.end(), w) - words.begin(); };
                        same[k] += d.word == t.word, near[k] += std::abs(at(d.word) - at(t.word)) <= 1;
                        break;
                    }
            }
        }
    }
    WARN("wanted edges judged on 0.5 mm: " << asked << "; same word on the draft's cells " << same[0] << ", at most one word off " << near[0]
                                           << "; on 1.5 mm " << same[1] << ", " << near[1]);
    CHECK(asked > 10);
    CHECK(same[1] * 2 > asked); // else the middle cells would be of no use
}
