// What is remembered from one day to the next: settings, recent plans, copies of what was not saved.
#include "viewer/studio/opened.h"
#include "viewer/studio/recovery.h"
#include "viewer/studio/settings.h"
#include "studio_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::tests;
using namespace tidemark::viewer;

TEST_CASE("settings come back as they were left, and what can't be understood is as at first", "[law][viewer]") {
    const TemporaryFolder folder;
    const Memory memory(folder.path() / "config", folder.path() / "state");
    CHECK(memory.settings().text_percent == 100); // no file yet
    Settings s;
    s.window_width = 1400, s.dark = true, s.text_percent = 150, s.cell_mm = 0.8, s.screen_dpi = 96.5, s.maximised = true, s.memory_mb = 99;
    memory.save(s);
    const Settings back = memory.settings();
    CHECK(back.window_width == 1400);
    CHECK(back.dark);
    CHECK(back.maximised);
    CHECK(back.text_percent == 150);
    CHECK(back.cell_mm == 0.8);
    CHECK(back.screen_dpi == 96.5);
    CHECK(back.memory_mb == 99);
    std::filesystem::create_directories(folder.path() / "config");
    folder.put("config/viewer.toml", std::string("text_percent = 900\ndark = perhaps\nwindow_width = 1000\n[[[what\ncell_mm = 0.7"));
    const Settings lenient = memory.settings();
    CHECK(lenient.text_percent == 100);
    CHECK_FALSE(lenient.dark);
    CHECK(lenient.window_width == 1000);
    CHECK(lenient.cell_mm == 0.5); // of another table
    Memory("/proc/nowhere", "/proc/nowhere").save(s); // must not throw
}

TEST_CASE("recent plans: the newest first, each once, those that are gone left out", "[law][viewer]") {
    const TemporaryFolder folder;
    const Memory memory(folder.path() / "config", folder.path() / "state");
    CHECK(memory.recent().empty());
    std::vector<std::filesystem::path> plans;
    for (int k = 0; k < 15; ++k) plans.push_back(folder.put("plan" + std::to_string(k) + ".toml", std::string("x")));
    for (const auto& p : plans) memory.add_recent(p);
    memory.add_recent(plans[7]);
    auto recent = memory.recent();
    CHECK(recent.size() == 12);
    CHECK(recent[0] == plans[7]);
    CHECK(recent[1] == plans[14]);
    CHECK(std::count(recent.begin(), recent.end(), plans[7]) == 1);
    std::filesystem::remove(plans[14]);
    CHECK(memory.recent()[1] == plans[13]);
}

TEST_CASE("what was being edited when the program ended is offered again, until it is saved", "[law][viewer]") {
    const SmallPlan small;
    Recovery recovery(small.folder.path() / "state" / "recovery");
    CHECK(recovery.left_over().empty());
    Document d(small.file, small.presets);
    recovery.keep_if_due(d); // unchanged: nothing to keep
    CHECK(recovery.left_over().empty());
    d.set("sky", "film_um", "95");
    recovery.keep_if_due(d); // within the first minute
    CHECK(recovery.left_over().empty());
    recovery.keep(d);
    auto left = recovery.left_over();
    REQUIRE(left.size() == 1);
    CHECK(left[0].plan_file == small.file);
    CHECK(left[0].text == d.text());
    Document again(left[0].plan_file, left[0].text, small.presets);
    CHECK(again.problems().empty());
    CHECK(again.changed()); // its file holds something else
    CHECK(again.plan()->areas[0].mask.width == 120);
    again.save();
    recovery.forget(left[0]);
    CHECK(recovery.left_over().empty());
    recovery.keep(d);
    recovery.forget(d);
    CHECK(recovery.left_over().empty());
}

TEST_CASE("what is opened is known by what it is", "[law][viewer]") {
    const SmallPlan small;
    CHECK(what_is(small.file).is == Opened::Is::plan);
    CHECK(what_is(small.folder.path()).path == small.file);
    CHECK(what_is(small.folder.path() / "reference.png").is == Opened::Is::picture);
    CHECK(what_is(std::filesystem::path(TIDEMARK_PRESETS_DIR) / "lessons" / "bloom").is == Opened::Is::lesson);
    CHECK(what_is(small.folder.path() / "masks").is == Opened::Is::nothing);
    CHECK(what_is(small.folder.path() / "nothing").why_not.find("no such file") != std::string::npos);
    const TemporaryFolder results;
    results.put("sheet.png", std::string("x"));
    CHECK(what_is(results.path()).is == Opened::Is::results);
    CHECK(what_is(results.put("notes.odt", std::string("x"))).is == Opened::Is::nothing);
}
