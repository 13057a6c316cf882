// Variants side by side: tables, contact sheet and plot.
#include "report/asked.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "grid/csv.h"
#include "report/draw_detail.h"
#include "report/edge_plot.h"
#include "report/side_by_side.h"
#include "support/small_plan.h"

using namespace tidemark;

namespace {

/// A hill that is wanted soft against the sky; varied is how long it waits.
plan::Plan hill_plan() {
    plan::Plan p = scene::small_sheet({{"PB29", 2}});
    const int hill = scene::add_band(p, "hill", 0.010, 0.030, 0.005);
    scene::add_step(p, "sky", 0, plan::Wash{});
    scene::add_step(p, "hill wash", 60, plan::Wash{.area = hill});
    p.wants.push_back({.line = 1, .first = "hill", .second = "sky", .edge = plan::EdgeWord::soft});
    return p;
}

const report::Question question{{"hill wash.wait"}, {1}};

report::Asked painted(const std::string& wait, double width_mm, const std::string& word, double delta_L = 30) {
    report::Asked a;
    a.values = {wait};
    a.end_s = 600;
    const auto edge = [](int step, const char* area, const char* neighbour, double mm, double L, const std::string& is) {
        judge::Edge e;
        e.step = step, e.area = area, e.neighbour = neighbour, e.width_mm = mm, e.delta_L = L, e.word = is;
        return e;
    };
    judge::Edge sky = edge(1, "hill", "sky", width_mm, delta_L, word);
    sky.want = 0;
    const judge::Edge paper = edge(1, "hill", "paper", 0.8, 50, "hard"), other = edge(0, "sky", "paper", 2, 50, "firm");
    for (const judge::Edge& e : {other, sky, paper}) a.edges.push_back(e);
    a.wants.push_back({1, word == "soft", ""});
    judge::Window before, its;
    before.step = 0, before.area = "sky";
    its.step = 1, its.area = "hill", its.wet_from_min = 1, its.moist_min = 2.5, its.damp_min = 4, its.dry_min = NAN;
    a.windows.push_back(before);
    a.windows.push_back(its);
    return a;
}

double L_at(const grid::Picture& p, int x, int y) { return p.at(x, y)[0]; }

} // namespace

TEST_CASE("a row of ask.csv has what was varied, each wanted edge, those of the varied step, and its windows", "[law][report]") {
    const std::vector<report::Asked> sheets{painted("0:00", 6.04, "soft"), painted("4:00", 0.93, "hard")};
    const auto csv = grid::CsvTable::parse(report::ask_table(hill_plan(), question, sheets), "ask.csv");
    REQUIRE(csv.rows() == 2);
    CHECK(csv.text(1, "hill wash.wait") == "4:00");
    CHECK(csv.text(0, "hill | sky (wanted soft)") == "soft");
    CHECK(csv.number(1, "hill | sky width_mm") == 0.93);
    CHECK(csv.text(0, "hill | paper") == "hard");
    CHECK_FALSE(csv.has("sky | paper")); // of a step that is the same in all
    CHECK(csv.number(0, "hill wash moist_min") == 2.5);
    CHECK(csv.text(0, "hill wash dry_min").empty());
    CHECK_FALSE(csv.has("sky moist_min")); // it comes before
    CHECK(csv.number(0, "edges_met") == 1);
    CHECK(csv.number(1, "edges_met") == 0);
    CHECK(csv.text(0, "weighted_kappa").empty()); // not painted whole
    CHECK_FALSE(csv.has("day"));
}

TEST_CASE("over days an edge is what it is so often", "[law][report]") {
    std::vector<report::Asked> sheets{painted("0:00", 6, "soft")};
    for (const auto& [mm, word] : {std::pair(6.0, "soft"), {5.0, "soft"}, {2.0, "firm"}}) {
        sheets.push_back(painted("0:00", mm, word));
        sheets.back().day = plan::Day{0.02, 1.1, 0.9};
    }
    sheets.back().wants[0].edge = -1; // and there it was not judged
    const auto csv = grid::CsvTable::parse(report::uncertain_table(hill_plan(), question, sheets), "uncertain.csv");
    CHECK(csv.text(0, "edge") == "hill | sky");
    CHECK(csv.number(0, "days") == 3);
    CHECK(csv.number(0, "soft") == 2);
    CHECK(csv.number(0, "firm") == 0);
    CHECK(csv.number(0, "not_judged") == 1);
    CHECK(csv.number(0, "width_median_mm") == 5.5);
    const auto edges = report::asked_edges(hill_plan(), question, sheets);
    CHECK(report::share_of({&sheets[1], &sheets[2], &sheets[3]}, edges[0]).text() == "soft in 2 of 3, not judged in 1");
    CHECK(grid::CsvTable::parse(report::ask_table(hill_plan(), question, sheets), "ask.csv").number(3, "day") == 3);
}

TEST_CASE("the surroundings of a step are its area and a margin, the whole sheet when that is most of it", "[law][report]") {
    const plan::Plan p = hill_plan(); // 60 × 30 mm, the hill from 10 to 30 and 5 to 25 mm
    CHECK((report::cut_around(p, {1}, 60, 30, 0.004) == report::Cut{6, 1, 28, 28}));
    CHECK((report::cut_around(p, {1}, 120, 60, 0.020) == report::Cut{0, 0, 100, 60} || report::cut_around(p, {1}, 120, 60, 0.020) == report::Cut{0, 0, 120, 60}));
    CHECK((report::cut_around(p, {0}, 60, 30, 0.004) == report::Cut{0, 0, 60, 30}));
    CHECK((report::cut_around(p, {}, 60, 30, 0.004) == report::Cut{0, 0, 60, 30}));
}

TEST_CASE("a contact sheet has its stated size and every sheet in its place", "[law][report]") {
    std::vector<report::SheetPiece> pieces;
    for (int k = 0; k < 8; ++k) {
        report::SheetPiece& piece = pieces.emplace_back();
        piece.picture.width = 48, piece.picture.height = 36;
        piece.picture.rgb.assign(48 * 36 * 3, static_cast<std::uint8_t>(20 * k));
        piece.captions = {"wait " + std::to_string(k), "hill | sky"};
    }
    const grid::Picture p = report::side_by_side(pieces);
    const report::PageSize page = report::page_size(8, 48, 36, 2);
    CHECK(p.width == page.width);
    CHECK(p.height == page.height);
    const int rows = (8 + page.columns - 1) / page.columns;
    const int pitch_x = (p.width - 20) / page.columns, pitch_y = (p.height - 20) / rows;
    CHECK(pitch_x - 20 == 480); // ten pixels a cell
    for (int k = 0; k < 8; ++k) {
        const int x = 20 + k % page.columns * pitch_x, y = 20 + k / page.columns * pitch_y;
        CHECK(L_at(p, x, y) == 20 * k);
        CHECK(L_at(p, x + 479, y + 359) == 20 * k);
        CHECK(L_at(p, x - 1, y) == 176); // the ground between them
        CHECK(L_at(p, x + 480, y) == 176);
    }
    CHECK(std::count(p.rgb.begin(), p.rgb.end(), 20) > 1000); // letters
    CHECK(1.0 * p.width / p.height > 0.8);
    CHECK(1.0 * p.width / p.height < 2.2);
}

TEST_CASE("the plot has a line an edge, times as minutes, and a lane for sides that are alike", "[law][report]") {
    const std::vector<report::Asked> sheets{painted("0:00", 12, "lost"), painted("2:00", 4, "soft"), painted("4:00", 1.5, "lost", 2)};
    const report::EdgePlot plot = report::edge_plot(hill_plan(), question, sheets);
    REQUIRE(plot.lines.size() == 2);
    CHECK(plot.wanted == "soft");
    CHECK(plot.lines[0].label == "hill | sky");
    REQUIRE(plot.lines[0].points.size() == 3);
    CHECK(plot.lines[0].points[1].x == Approx(2));
    CHECK(plot.lines[0].points[1].width_mm == 4);
    CHECK(std::isnan(plot.lines[0].points[2].width_mm));
    CHECK(plot.ticks[2].second == "4:00");

    const report::LineDrawing d = report::edge_plot_drawing(plot);
    CHECK(d.width_mm == report::plot_width_mm);
    CHECK(d.height_mm == report::plot_height_mm);
    for (const report::Stroke& s : d.strokes)
        for (const auto& at : s.points) {
            CHECK((at.x > 0 && at.x < d.width_mm && at.y > 0 && at.y < d.height_mm));
            CHECK((s.pen.r == s.pen.g || std::abs(s.pen.r - s.pen.b) < 0.05)); // no colour says anything
        }
    const auto greys = std::count_if(d.strokes.begin(), d.strokes.end(), [](const report::Stroke& s) { return s.pen.r > 0.8; });
    CHECK(greys > 10); // the wanted band
    report::EdgePlot unwanted = plot;
    unwanted.wanted.clear();
    const auto none = report::edge_plot_drawing(unwanted).strokes;
    CHECK(std::none_of(none.begin(), none.end(), [](const report::Stroke& s) { return s.pen.r > 0.8; }));
}

TEST_CASE("with two things varied the plot has a line for each value of the second; words have a place each", "[law][report]") {
    std::vector<report::Asked> sheets;
    for (const char* tool : {"tissue", "sponge"})
        for (const char* wait : {"0:00", "1:00"}) {
            sheets.push_back(painted(tool, 4, "soft"));
            sheets.back().values.push_back(wait);
        }
    const report::EdgePlot plot = report::edge_plot(hill_plan(), {{"hill wash.tool", "hill wash.wait"}, {1}}, sheets);
    REQUIRE(plot.lines.size() == 2);
    CHECK(plot.lines[1].label == "hill wash.wait 1:00");
    CHECK(plot.lines[1].points[1].x == 1);
    CHECK(plot.ticks[1].second == "sponge");
}
