// A plan that is edited: only the characters of the value change, whatever stands round it.
#include "viewer/studio/document.h"
#include "studio_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::tests;
using viewer::Document;

namespace {

std::string replaced(std::string text, const std::string& was, const std::string& by) {
    const std::size_t at = text.find(was);
    REQUIRE(at != std::string::npos);
    return text.replace(at, was.size(), by);
}

std::vector<viewer::ActSpan> sky_ended(double s) { return {{0, 10, s, true, 0, false, ""}}; }

} // namespace

TEST_CASE("a changed value leaves every other character of the plan as it was", "[law][viewer]") {
    const SmallPlan small;
    const std::string text = small_plan_text();
    Document d(small.file, small.presets);
    REQUIRE(d.problems().empty());
    struct Case {
        std::string where, key, value, was, by;
    };
    const Case cases[] = {{"sky", "film_um", "120", "film_um=80", "film_um=120"},
                          {"sheet", "paper", "hot-pressed-300", "paper = \"cold-pressed-185\"", "paper = \"hot-pressed-300\""},
                          {"mix.blue", "PB29", "2.5", "PB29 = 2        # thin", "PB29 = 2.5        # thin"},
                          {"mix.grey one", "PBk9", "1", "PBk9 = 3", "PBk9 = 1"},
                          {"hills", "wait", "6:30", "wait = \"4:00\"  # it may", "wait = \"6:30\"  # it may"},
                          {"drops", "when.is", "moist", "is = \"damp\"", "is = \"moist\""},
                          {"drops", "when.share", "0.5", "longest = \"30:00\" }", "longest = \"30:00\" , share = 0.5 }"},
                          {"dry it", "warm_air", "false", "warm_air = true", "warm_air = false"},
                          {"dry it", "share", "0.9", "warm_air = true\n", "warm_air = true\nshare = 0.9\n"},
                          {"hills", "pace_cm2_s", "", "film_um = 60\npace_cm2_s = 10\n", "film_um = 60\n"}};
    for (const Case& c : cases) {
        INFO(c.where << " " << c.key);
        d.set(c.where, c.key, c.value);
        CHECK(d.text() == replaced(text, c.was, c.by));
        CHECK(d.problems().empty());
        CHECK(d.changed());
        d.undo();
        CHECK(d.text() == text);
        CHECK_FALSE(d.changed());
    }
    CHECK(d.get("sheet", "paper") == "cold-pressed-185");
    CHECK(d.get("drops", "when.longest") == "30:00");
    CHECK_FALSE(d.get("sky", "brush"));
}

TEST_CASE("undo and redo go back and forth through all changes, each by its name", "[law][viewer]") {
    const SmallPlan small;
    Document d(small.file, small.presets);
    std::vector<std::string> texts{d.text()};
    for (int um = 40; um < 90; um += 2) {
        d.set("hills", "film_um", std::to_string(um));
        if (d.text() != texts.back()) texts.push_back(d.text());
    }
    REQUIRE(texts.size() > 20);
    CHECK(d.undo_label() == "hills: film_um 88");
    for (std::size_t k = texts.size(); k-- > 1;) {
        CHECK(d.text() == texts[k]);
        d.undo();
    }
    CHECK(d.text() == texts[0]);
    CHECK_FALSE(d.can_undo());
    CHECK(std::get<plan::Wash>(d.plan()->steps[1].act).film_m == Approx(60e-6));
    for (std::size_t k = 1; k < texts.size(); ++k) {
        d.redo();
        CHECK(d.text() == texts[k]);
    }
    CHECK_FALSE(d.can_redo());
    CHECK(std::get<plan::Wash>(d.plan()->steps[1].act).film_m == Approx(88e-6));
}

TEST_CASE("a change that the plan's reader refuses changes nothing and says what is allowed", "[wrong][viewer]") {
    const SmallPlan small;
    Document d(small.file, small.presets);
    const int revision = d.revision();
    const auto refused = [&](auto&& change, const std::string& word) {
        try {
            change();
            FAIL("not refused");
        } catch (const grid::BadInput& bad) {
            INFO(bad.problems().front().line());
            CHECK(bad.problems().front().line().find(word) != std::string::npos);
        }
        CHECK(d.text() == small_plan_text());
        CHECK(d.revision() == revision);
        CHECK_FALSE(d.can_undo());
    };
    refused([&] { d.set("sky", "film_um", "-3"); }, "film_um");
    refused([&] { d.set("sky", "mix", "bleu"); }, "bleu");
    refused([&] { d.set("hills", "wait", "soon"); }, "soon");
    refused([&] { d.set("clouds", "film_um", "50"); }, "clouds");
    refused([&] { d.move_act(1, 600, {}); }, "sky");                // what it follows has not been played
    refused([&] { d.remove_act(0); }, "sky");                       // an edge is wanted of it
    refused([&] { d.replace("tidemark = 2\n", "by hand"); }, "tidemark");
}

TEST_CASE("areas and wishes that are changed are looked at anew, though those of before were sound", "[wrong][viewer]") {
    std::string text = replaced(small_plan_text(), "mask = \"masks/hills.png\"", "rectangle_mm = [0, 20, 60, 20]");
    const SmallPlan small(text);
    Document d(small.file, small.presets);
    REQUIRE(d.problems().empty());
    const auto beside = [&] { // the sheet
        try {
            d.set("area.hills", "rectangle_mm", "[70, 20, 60, 20]");
        } catch (const grid::BadInput& bad) {
            return bad.problems().front().what;
        }
        return std::string();
    };
    CHECK(beside().find("covers nothing") != std::string::npos);
    CHECK_THROWS_AS(d.add_want("hills", "paper", "hard"), grid::BadInput); // the sky covers all
    d.set("area.hills", "rectangle_mm", "[0, 25, 60, 15]");
    CHECK(d.problems().empty());
    d.set("sky", "film_um", "70");
    CHECK(beside().find("covers nothing") != std::string::npos);
}

TEST_CASE("an act moved to a minute begins then: by the clock, or so long after what it follows", "[law][viewer]") {
    const SmallPlan small;
    const std::string text = small_plan_text();
    Document d(small.file, small.presets);
    d.move_act(0, 75, {});
    CHECK(d.text() == replaced(text, "at = \"0:10\"", "at = \"1:15\""));
    d.undo();
    d.move_act(1, 600, sky_ended(40)); // the sky was finished at 0:40
    CHECK(d.text() == replaced(text, "wait = \"4:00\"", "wait = \"9:20\""));
    d.undo();
    d.move_act(1, 20, sky_ended(40)); // no sooner than that
    CHECK(d.text() == replaced(text, "wait = \"4:00\"", "wait = \"0:00\""));
    d.undo();
    d.move_act(2, 900, {{1, 280, 300, true, 0, false, ""}}); // the clock takes the place of a stage
    const auto* after = std::get_if<plan::AfterStep>(&d.plan()->steps[2].start);
    REQUIRE(after != nullptr);
    CHECK(after->step == 1);
    CHECK(after->wait_s == 600);
    CHECK(d.text().find("when") == std::string::npos);
}

TEST_CASE("acts, mixes and wishes are added and taken away between what the painter wrote", "[law][viewer]") {
    const SmallPlan small;
    const std::string text = small_plan_text();
    Document d(small.file, small.presets);
    viewer::NewAct glaze{.verb = "wash", .name = "glaze", .area = "hills", .mix = "blue"};
    glaze.film_um = 50, glaze.wait_s = 90;
    CHECK(d.add_act(glaze, 1) == 2);
    REQUIRE(d.plan()->steps.size() == 5);
    CHECK(d.plan()->steps[2].name == "glaze");
    CHECK(std::get<plan::AfterStep>(d.plan()->steps[2].start).wait_s == 90);
    CHECK(std::get<plan::Wash>(d.plan()->steps[2].act).film_m == Approx(50e-6));
    const std::string with = d.text();
    d.remove_act(2);
    CHECK(d.text() == text);
    d.undo();
    CHECK(d.text() == with);
    d.undo();
    viewer::NewAct wet{.verb = "wet"};
    wet.water_g_m2 = 60, wet.at_s = 0;
    d.add_act(wet, -1);
    CHECK(std::holds_alternative<plan::Wet>(d.plan()->steps[0].act));
    d.undo();
    d.add_mix("12 o'clock", {{"PY43", 1.5}, {"PB29", 0.2}});
    d.set("sky", "mix", "12 o'clock");
    CHECK(d.plan()->mixes.size() == 4);
    CHECK_THROWS_AS(d.add_want("hills", "sky", "hard"), grid::BadInput); // it is wanted otherwise already
    d.replace(replaced(d.text(), "[[want]]\nbetween = [\"hills\", \"sky\"]\nedge = \"soft\"\n", ""), "no wish");
    CHECK(d.plan()->wants.empty());
    d.add_want("hills", "sky", "hard");
    REQUIRE(d.plan()->wants.size() == 1);
    CHECK(d.plan()->wants[0].edge == plan::EdgeWord::hard);
    CHECK(d.text().find("# it may be later") != std::string::npos);
}

TEST_CASE("who waited for an act that is taken away waits for what that one waited for", "[behaviour][viewer]") {
    std::string text = replaced(small_plan_text(), "[[want]]\nbetween = [\"hills\", \"sky\"]\nedge = \"soft\"\n", "");
    text = replaced(text, "when = { area = \"hills\", is = \"damp\", longest = \"30:00\" }", "after = \"hills\"\nwait = \"3:00\"");
    const SmallPlan small(text);
    Document d(small.file, small.presets);
    d.remove_act(1);
    REQUIRE(d.plan()->steps.size() == 3);
    CHECK(d.plan()->steps[1].name == "drops");
    CHECK(std::get<plan::AfterStep>(d.plan()->steps[1].start).step == 0);
    CHECK(std::get<plan::AfterStep>(d.plan()->steps[1].start).wait_s == 180);
}

TEST_CASE("saved elsewhere, a plan brings its masks and pictures along, and writes over no others", "[law][viewer]") {
    const SmallPlan small;
    const TemporaryFolder elsewhere;
    Document d(small.file, small.presets);
    d.set("sky", "film_um", "90");
    const auto there = elsewhere.path() / "new" / "evening.toml";
    CHECK(d.save_as(there).size() == 2);
    CHECK_FALSE(d.changed());
    CHECK(d.file() == there);
    CHECK(grid::read_text(there) == d.text());
    CHECK(plan::read_plan(there, small.presets).areas[0].mask.value == small.plan()->areas[0].mask.value);
    CHECK(grid::read_text(small.file) == small_plan_text()); // as it was
    CHECK(d.save_as(elsewhere.path() / "new" / "again.toml").empty()); // they lie there
    std::filesystem::create_directories(elsewhere.path() / "taken" / "masks");
    elsewhere.put("taken/masks/hills.png", std::string("another"));
    CHECK_THROWS_AS(d.save_as(elsewhere.path() / "taken" / "plan.toml"), grid::BadInput);
    CHECK_FALSE(std::filesystem::exists(elsewhere.path() / "taken" / "plan.toml"));
    CHECK(grid::read_text(elsewhere.path() / "taken/masks/hills.png") == "another");
}

TEST_CASE("saved elsewhere, nothing is written beside the new plan's folder, by a name or by a link", "[wrong][viewer]") {
    namespace fs = std::filesystem;
    const TemporaryFolder old, elsewhere;
    const SmallPlan small;
    fs::create_directories(old.path() / "inner");
    fs::copy(small.file.parent_path(), old.path(), fs::copy_options::recursive);
    old.put("inner/plan.toml", replaced(small_plan_text(), "masks/hills.png", "../masks/hills.png"));
    fs::copy(old.path() / "reference.png", old.path() / "inner" / "reference.png");
    Document closed(old.path() / "inner/plan.toml", small.presets);
    REQUIRE_FALSE(closed.problems().empty());
    CHECK_THAT(closed.problems()[0].line(), Catch::Contains("--allow-outside"));
    Document open(old.path() / "inner/plan.toml", small.presets, plan::FilesFrom::anywhere);
    REQUIRE(open.problems().empty());
    CHECK_THROWS_WITH(open.save_as(elsewhere.path() / "new/plan.toml"), Catch::Contains("lies outside the new plan's folder"));
    CHECK(fs::is_empty(elsewhere.path()));
    Document d(small.file, small.presets);
    fs::create_directories(elsewhere.path() / "new");
    fs::create_directories(elsewhere.path() / "victim");
    fs::create_directory_symlink("../victim", elsewhere.path() / "new/masks");
    CHECK_THROWS_AS(d.save_as(elsewhere.path() / "new/plan.toml"), grid::BadInput);
    CHECK(fs::is_empty(elsewhere.path() / "victim"));
}

TEST_CASE("a plan broken in an editor is told of by line, and mended there goes on", "[behaviour][viewer]") {
    const SmallPlan small(replaced(small_plan_text(), "mix = \"blue\"\nfilm_um=80", "mix = \"bleu\"\nfilm_um=80"));
    Document d(small.file, small.presets);
    REQUIRE(d.problems().size() == 1);
    CHECK(d.problems()[0].where.find("plan.toml:25") != std::string::npos);
    CHECK_FALSE(d.plan());
    CHECK_THROWS_AS(d.set("sky", "film_um", "90"), grid::BadInput);
    CHECK_FALSE(d.changed_on_disk());
    small.folder.put("plan.toml", std::string(small_plan_text()));
    CHECK(d.changed_on_disk());
    d.reload();
    CHECK(d.problems().empty());
    REQUIRE(d.plan());
    CHECK(d.plan()->steps.size() == 4);
    d.set("sky", "film_um", "90");
    d.save();
    CHECK(grid::read_text(small.file) == replaced(small_plan_text(), "film_um=80", "film_um=90"));
    CHECK_FALSE(d.changed_on_disk());
}
