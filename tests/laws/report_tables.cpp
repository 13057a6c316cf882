#include "grid/csv.h"
#include "report/record_table.h"
#include "report/tables.h"
#include "support/a_brush.h"
#include "support/report_scene.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace report_scene;
using tests::brush;

namespace {
judge::Verdicts verdicts(const Scene& s) {
    const Folder folder;
    grid::OutputFolder out(folder.path);
    return report::write_outputs(s.inputs(), out);
}
std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }
} // namespace

TEST_CASE("the tables' headers are as promised, units in the names", "[law][report]") {
    const Scene s = make_scene();
    const auto v = verdicts(s);
    CHECK(
        first_line(report::edges_table(s.plan, v.edges, v.wants)) ==
        "step,area,neighbour,edge,wanted,tidemark,width_mm,difference_L,rim_L,inside_L,outside_L,shift_mm,length_mm,"
        "x_mm,y_mm,met,met_pct");
    CHECK(first_line(report::stretches_table(s.plan, v.edges)) ==
          "step,area,neighbour,stretch,side,edge,tidemark,width_mm,difference_L,rim_L,rim_mm,shift_mm,length_mm,share_pct,"
          "x_mm,y_mm,from_x_mm,from_y_mm,to_x_mm,to_y_mm,met,met_pct,laid_min,why");
    CHECK(first_line(report::marks_table(s.plan, v.marks)) ==
          "mark,step,area,time_min,x_mm,y_mm,size_mm,darker_L,paler_L,met,what");
    CHECK(first_line(report::windows_table(s.plan, v.windows)) ==
          "step,area,wet_from_min,moist_min,damp_min,dry_min,until_min");
    CHECK(first_line(report::values_table(v.values)) ==
          "kind,name,from_L,to_L,reference_share_pct,sheet_share_pct,reference_L,sheet_L,difference_L,agreement");
    CHECK(first_line(report::mixes_table(v.mixes)) ==
          "mix,laid_mL,prepare_from_mL,prepare_to_mL,pigment,laid_g,prepare_g");
    CHECK(first_line(report::brushes_table(v.mixes, {})) == "mix,brush,in_the_plan,washes,refills,laid_mL,taken_mL,stays_mL");
    CHECK(
        first_line(report::ledger_table(s.record.ledger)) ==
        "time_min,water_start_g,water_laid_g,evaporated_g,to_board_g,run_off_g,water_lifted_g,film_g,front_g,back_g,"
        "water_closure_rel,pigment_laid_g,pigment_lifted_g,pigment_on_sheet_g,gum_laid_g,gum_lifted_g,gum_on_sheet_g,"
        "worst_pigment_closure_rel");
}

TEST_CASE("edges.csv tells of the disc in the wash and of the wash on paper", "[law][report]") {
    const Scene s = make_scene();
    const auto v = verdicts(s);
    const auto t = grid::CsvTable::parse(report::edges_table(s.plan, v.edges, v.wants), "edges.csv");
    REQUIRE(t.rows() == 2);
    CHECK(t.text(0, "step") == "light");
    CHECK(t.text(0, "neighbour") == "paper");
    CHECK(t.text(0, "wanted").empty());
    CHECK(t.text(1, "area") == "disc");
    CHECK(t.text(1, "neighbour") == "left");
    CHECK(t.text(1, "edge") == "hard");
    CHECK(t.text(1, "wanted") == "soft");
    CHECK(t.number(1, "width_mm") < 1);
    CHECK(t.number(1, "difference_L") > 10);
    CHECK(t.number(1, "length_mm") == Approx(2 * 3.1416 * 6).epsilon(0.05)); // cells of half a millimetre
}

TEST_CASE("stretches.csv has the disc's outline as one stretch, with side, share and what is known of it", "[law][report]") {
    const Scene s = make_scene();
    const auto v = verdicts(s);
    const auto t = grid::CsvTable::parse(report::stretches_table(s.plan, v.edges), "stretches.csv");
    REQUIRE(t.rows() == 2);
    CHECK(t.text(0, "side") == "right");
    CHECK(t.text(1, "step") == "dark");
    CHECK(t.text(1, "neighbour") == "left");
    CHECK(t.number(1, "stretch") == 1);
    CHECK(t.text(1, "side") == "all round");
    CHECK(t.text(1, "edge") == "hard");
    CHECK(t.number(1, "share_pct") == 100);
    CHECK(t.number(1, "length_mm") == Approx(2 * 3.1416 * 6).epsilon(0.05));
    CHECK(t.text(1, "met").empty()); // the record of this scene knows nothing of it
    CHECK(t.text(1, "met_pct").empty());
    CHECK(t.text(1, "laid_min").empty());
    CHECK(t.text(1, "why") == "100 % of the outline of disc");
}

TEST_CASE("marks.csv tells what a mark is, where, when, and how far off in lightness", "[law][report]") {
    const Scene s = make_scene();
    const std::vector<judge::Mark> marks{
        {judge::MarkKind::bloom, 1, "disc", 9.5, 12, 8, 14.04, 3.1, 4.2, "moist", "a bloom 14 mm across"},
        {judge::MarkKind::lap, 0, "left", 2, 5, 6, 30, 5, 0, "", "a lap"}};
    const auto t = grid::CsvTable::parse(report::marks_table(s.plan, marks), "marks.csv");
    REQUIRE(t.rows() == 2);
    CHECK(t.text(0, "mark") == "bloom");
    CHECK(t.text(0, "step") == "dark");
    CHECK(t.number(0, "time_min") == 9.5);
    CHECK(t.number(0, "size_mm") == 14);
    CHECK(t.number(0, "paler_L") == 4.2);
    CHECK(t.text(0, "what") == "a bloom 14 mm across");
    CHECK(t.text(1, "paler_L").empty());
}

TEST_CASE("a wish without an edge has a row of its own in edges.csv", "[law][report]") {
    Scene s = make_scene();
    s.plan.wants.push_back({12, "left", "stalk", plan::EdgeWord::lost});
    const auto v = verdicts(s);
    const auto t = grid::CsvTable::parse(report::edges_table(s.plan, v.edges, v.wants), "edges.csv");
    REQUIRE(t.rows() == 3);
    CHECK(t.text(2, "step").empty());
    CHECK(t.text(2, "area") == "left");
    CHECK(t.text(2, "neighbour") == "stalk");
    CHECK(t.text(2, "edge") == "not judged: \"stalk\" was not painted in this run");
    CHECK(t.text(2, "wanted") == "lost");
    CHECK(t.text(2, "width_mm").empty());
}

TEST_CASE("brushes.csv has the plan's brush as it was, then what others would need", "[law][report]") {
    judge::MixAmount m;
    m.mix = "sky", m.laid_mL = 7, m.brushes = {{"mop", 1, 3, 7, 11}}, m.washes_mL = {7};
    const auto t = grid::CsvTable::parse(report::brushes_table({m}, {brush("round", 1.5e-6, 1e-6)}), "brushes.csv");
    REQUIRE(t.rows() == 2);
    CHECK(t.text(0, "brush") == "mop");
    CHECK(t.text(0, "in_the_plan") == "yes");
    CHECK(t.number(0, "refills") == 2);
    CHECK(t.number(0, "stays_mL") == 4);
    CHECK(t.text(1, "brush") == "round");
    CHECK(t.text(1, "in_the_plan") == "no");
    CHECK(t.number(1, "refills") == 6);
    CHECK(t.number(1, "taken_mL") == Approx(7.5));
}

TEST_CASE("a name with a comma comes back whole, and what was not reached is empty", "[law][report]") {
    const Scene s = make_scene();
    const auto v = verdicts(s);
    const auto mixes = grid::CsvTable::parse(report::mixes_table(v.mixes), "mixes.csv");
    REQUIRE(mixes.rows() == 2);
    CHECK(mixes.text(0, "mix") == "sky, pale");
    CHECK(mixes.text(1, "pigment") == "PY150");
    CHECK(mixes.number(0, "laid_mL") == Approx(0.4));
    CHECK(mixes.number(0, "prepare_to_mL") == 1);
    const auto windows = grid::CsvTable::parse(report::windows_table(s.plan, v.windows), "windows.csv");
    CHECK(windows.text(0, "moist_min").empty()); // no sample of that area
    CHECK(windows.text(2, "step") == "all");
    CHECK(windows.number(2, "dry_min") == Approx(29)); // 95 % between minutes 10 and 30
}

TEST_CASE("the ledger's closure can be worked out from its row", "[law][report]") {
    const Scene s = make_scene();
    const auto t = grid::CsvTable::parse(report::ledger_table(s.record.ledger), "ledger.csv");
    const auto n = [&](const char* column) { return t.number(0, column); };
    CHECK(n("water_start_g") + n("water_laid_g") - n("evaporated_g") - n("to_board_g") - n("run_off_g") -
              n("water_lifted_g") ==
          Approx(n("film_g") + n("front_g") + n("back_g")));
    CHECK(n("time_min") == 1);
    CHECK(n("to_board_g") == Approx(0.01));
    CHECK(n("run_off_g") == Approx(0.02));
    CHECK(n("water_lifted_g") == Approx(0.03));
    CHECK(n("film_g") == Approx(0.1));
    CHECK(n("front_g") == Approx(0.52));
    CHECK(n("pigment_laid_g") == Approx(n("pigment_on_sheet_g")));
    CHECK(n("water_closure_rel") == Approx(3e-9));
    CHECK(n("worst_pigment_closure_rel") == Approx(2e-8));
}

TEST_CASE("values.csv has groups, areas and the agreement", "[law][report]") {
    const Scene s = make_scene();
    const auto t = grid::CsvTable::parse(report::values_table(verdicts(s).values), "values.csv");
    REQUIRE(t.rows() == 2 + 3 + 2 + 4);
    CHECK(t.text(0, "name") == "darks");
    CHECK(t.text(1, "name") == "lights");
    CHECK(t.number(0, "reference_share_pct") == Approx(50));
    CHECK(t.text(2, "name") == "left");
    CHECK(t.text(4, "name") == "whole sheet");
    CHECK(t.text(5, "kind") == "mass");
    CHECK_THAT(t.text(5, "name"), Catch::Contains(" at "));
    CHECK(t.number(5, "difference_L") == Approx(t.number(5, "sheet_L") - t.number(5, "reference_L")).margin(0.11));
    CHECK(t.text(7, "name") == "share in the right group");
    CHECK(t.number(7, "agreement") > 0.5);
    CHECK(t.text(10, "name") == "kappa with linear weights, from three metres");
    CHECK(t.number(10, "agreement") > 0.5);
}

TEST_CASE("the record tells acts and stages in the order of time", "[law][report]") {
    Scene s = make_scene();
    s.record.stages.clear();
    const auto sample = [&](double minute, double wet, double moist, double damp, double dry) {
        s.record.stages.push_back({minute * 60, 1, {wet, moist, damp, dry}});
    };
    sample(0, 0, 0, 0, 1), sample(5, 0.9, 0.1, 0, 0), sample(10, 0.3, 0.3, 0.3, 0.1), sample(15, 0.1, 0.1, 0.2, 0.6),
        sample(20, 0, 0, 0.04, 0.96);
    auto& act = s.record.acts.back();
    act.waited_s = 90, act.gave_up = true;
    s.plan.steps[act.step].start = plan::WhenStage{1, plan::Stage::damp, 90};
    const auto t = grid::CsvTable::parse(report::record_table(s.plan, s.record), "record.csv");
    std::vector<std::string> stages;
    double before = 0;
    bool waited = false;
    for (std::size_t row = 0; row < t.rows(); ++row) {
        CHECK(t.number(row, "time_min") >= before);
        before = t.number(row, "time_min");
        if (t.text(row, "step").empty())
            stages.push_back(t.text(row, "time") + " " + t.text(row, "event") + " " + t.text(row, "area"));
        if (t.text(row, "event") == "begins: wash (gave up waiting)") {
            waited = true;
            CHECK(t.number(row, "waited_min") == Approx(1.5));
            CHECK(t.text(row, "step") == s.plan.steps[act.step].name);
        }
    }
    CHECK(waited);
    CHECK(stages == std::vector<std::string>{"5:00 wet disc", "10:00 moist disc", "15:00 damp disc", "20:00 dry disc"});
}
