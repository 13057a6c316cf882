// When each act is due, when it begins, and where the hand is wanted twice.
#include "plan/plan_folder.h"
#include "plan/timetable.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using Catch::Detail::Approx;

namespace {

plan::Plan read(const std::string& steps) {
    const PlanFolder folder;
    return folder.read("tidemark = 1\n[sheet]\nsize_mm = [380, 280]\npaper = \"cold-pressed-300\"\n" + steps);
}

/// A wetting; how long it keeps the hand is said apart.
std::string wet(const std::string& name, const std::string& start) {
    return "[[step]]\ndo = \"wet\"\nwater_g_m2 = 100\nname = \"" + name + "\"\n" + start + "\n";
}
std::string dry(const std::string& name, const std::string& keys) {
    return "[[step]]\ndo = \"dry\"\nname = \"" + name + "\"\n" + keys + "\n";
}

plan::Timetable table_of(const plan::Plan& p, const std::vector<double>& busy_s) {
    REQUIRE(p.steps.size() == busy_s.size());
    return plan::timetable(p, [&](int step) { return plan::Busy{.seconds = busy_s[step]}; });
}
plan::Timetable table_of(const std::string& steps, const std::vector<double>& busy_s) {
    return table_of(read(steps), busy_s);
}

} // namespace

TEST_CASE("the nominal timetable adds hand, waits and clock, and marks earliest times", "[plan]") {
    const PlanFolder folder;
    std::ostringstream text;
    text << std::ifstream(TIDEMARK_TESTS_DIR "/plan/good.toml").rdbuf();
    const auto table = table_of(folder.read(text.str()), {27, 106, 40, 0, 60, 0, 0});
    const auto& times = table.times;
    CHECK(times[0].start_s == 0);
    CHECK(times[0].end_s == 27);
    CHECK(times[1].start_s == 27 + 90);
    CHECK(times[1].end_s == 27 + 90 + 106);
    CHECK(times[2].start_s == 600);
    CHECK(times[2].end_s == 640);
    CHECK(times[3].end_s == 640);
    CHECK_FALSE(times[3].start_is_earliest);
    CHECK(times[4].start_s == 640);
    CHECK(times[4].waits_for_stage);
    CHECK(times[4].start_is_earliest);
    CHECK(times[5].waits_for_stage);
    CHECK(times[5].end_s == times[5].start_s); // the stage counts as reached
    CHECK(times[6].end_s == Approx(times[6].start_s + 300));
    CHECK(times[6].start_is_earliest);
    CHECK_FALSE(times[6].waits_for_stage);
    CHECK(table.order == std::vector<int>{0, 1, 2, 3, 4, 5, 6});
    const plan::Clashes found = plan::clashes(table);
    CHECK(found.certain.empty());
    CHECK(found.first_uncertain == 4); // it waits for a damp sky
}

TEST_CASE("one hand: a step whose time comes while the hand is busy begins when it is free, and that is a clash", "[plan]") {
    const auto table = table_of(wet("long", "") + "[[step]]\ndo = \"tilt\"\nangle_deg = 5\nat = \"5:00\"\n", {1064, 0});
    CHECK(table.times[1].due_s == 300);
    CHECK(table.times[1].start_s == 1064);
    const plan::Clashes found = plan::clashes(table);
    REQUIRE(found.certain.size() == 1);
    CHECK(found.certain[0].step == 1);
    CHECK(found.certain[0].hand_has == std::vector<int>{0});
    CHECK(found.first_uncertain == -1);
}

TEST_CASE("a clash names all acts that the hand is at from the due moment on", "[plan]") {
    const auto table = table_of(wet("a", "at = \"0:00\"") + wet("b", "at = \"1:00\"") + wet("c", "at = \"1:30\"") +
                                    wet("after all", ""),
                                {100, 50, 20, 10});
    const plan::Clashes found = plan::clashes(table);
    REQUIRE(found.certain.size() == 2);
    CHECK(found.certain[0].step == 1); // due at 60, begins at 100
    CHECK(found.certain[0].hand_has == std::vector<int>{0});
    CHECK(found.certain[1].step == 2); // due at 90, begins at 150
    CHECK(found.certain[1].hand_has == std::vector<int>{0, 1});
    CHECK(table.times[2].start_s == 150);
    CHECK(table.times[3].due_s == 170); // what follows the step above is due when that ends
}

TEST_CASE("two acts after one step clash, the one that stands first has the hand", "[plan]") {
    const auto table = table_of(wet("a", "") + wet("b", "after = \"a\"") + wet("c", "after = \"a\"\nwait = \"0:10\""),
                                {30, 60, 5});
    const plan::Clashes found = plan::clashes(table);
    REQUIRE(found.certain.size() == 1);
    CHECK(found.certain[0].step == 2);
    CHECK(table.times[2].due_s == 40);
    CHECK(table.times[2].start_s == 90);
}

TEST_CASE("acts that only just touch, and a hand that is free during a wait, are no clash", "[plan]") {
    CHECK(plan::clashes(table_of(wet("a", "at = \"0:00\"") + wet("b", "at = \"1:00\""), {60.9, 5})).certain.empty());
    const auto table = table_of(dry("wait", "longest = \"30:00\"") + wet("meanwhile", "at = \"5:00\""), {0, 60});
    CHECK(plan::clashes(table).certain.empty());
    CHECK(plan::clashes(table).first_uncertain == -1); // a wait by the clock is certain
    CHECK(table.times[0].end_s == 1800);
    CHECK(table.times[1].start_s == 300);
}

TEST_CASE("after a wait on the sheet has a claim on the hand, no clash is told", "[plan]") {
    const std::string before = wet("a", "at = \"0:00\"") + wet("early", "at = \"1:00\"") + dry("wait", "until = \"damp\"");
    const std::string later = wet("x", "at = \"40:00\"") + wet("y", "at = \"41:00\"");
    const auto some_time = table_of(before + wet("damp", "") + later, {90, 10, 0, 20, 300, 5});
    const plan::Clashes found = plan::clashes(some_time);
    REQUIRE(found.certain.size() == 1);
    CHECK(found.certain[0].step == 1);
    CHECK(found.first_uncertain == 3);
    // Where nothing that waited takes the hand, the later clash is certain.
    const plan::Clashes all = plan::clashes(table_of(before + later, {90, 10, 0, 300, 5}));
    REQUIRE(all.certain.size() == 2);
    CHECK(all.certain[1].step == 4);
    CHECK(all.first_uncertain == -1);
}

TEST_CASE("a drying step leaves the hand free for one with its own time", "[plan]") {
    const auto table = table_of(dry("wait", "longest = \"30:00\"") + wet("after the drying", "") +
                                    "[[step]]\ndo = \"tilt\"\nangle_deg = 5\nat = \"5:00\"\n",
                                {0, 27, 0});
    CHECK(table.times[1].start_s == 1800);
    CHECK(table.times[2].start_s == 300);
    CHECK(table.order == std::vector<int>{0, 2, 1});
}

TEST_CASE("a step may wait for one that stands later in the file", "[plan]") {
    const auto table =
        table_of(wet("first", "after = \"tilt\"") + "[[step]]\ndo = \"tilt\"\nangle_deg = 5\nat = \"2:00\"\n", {27, 0});
    CHECK(table.order == std::vector<int>{1, 0});
    CHECK(table.times[0].start_s == 120);
}
