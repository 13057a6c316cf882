// Runs in the background: the sheets of the command line, and only what comes after a change is painted again.
#include "viewer/studio/studio.h"
#include "studio_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::tests;
using namespace tidemark::viewer;

namespace {

constexpr double coarse_m = 3e-3;

sheet::Look look_of_own_run(const plan::Plan& plan, double cell_m) {
    rehearsal::Rehearsal run(plan, {.cell_m = cell_m});
    while (run.step()) {}
    return sheet::look(run.sheet(), sheet::LookAs::dried);
}

std::shared_ptr<plan::Plan> changed(const plan::Plan& plan, const std::function<void(plan::Plan&)>& change) {
    auto other = std::make_shared<plan::Plan>(plan);
    change(*other);
    return other;
}

} // namespace

TEST_CASE("a run in the background leaves the sheet that the command line paints", "[law][viewer]") {
    const SmallPlan small;
    const auto run = small.run();
    REQUIRE(run->progress().problem.empty());
    REQUIRE(run->progress().is == RunProgress::Is::finished);
    const auto outcome = run->outcome();
    REQUIRE(outcome);
    CHECK(outcome->dried.picture.rgb == look_of_own_run(*small.plan(), 2e-3).picture.rgb);
    CHECK(run->acts().size() == 4);
    CHECK(run->acts()[1].step == 1);
    CHECK(run->acts()[1].start_s == Approx(run->acts()[0].end_s + 240).margin(1));
    CHECK(outcome->verdicts.wants.size() == 1);
    const StageLine hills = run->stages(0);
    REQUIRE(hills.samples.size() > 10);
    CHECK(hills.samples.front().share[3] == Approx(1)); // dry paper first, dry paint last
    CHECK(hills.samples.back().share[3] > 0.99f);
    CHECK(run->progress().left_wall_s == 0);
}

TEST_CASE("after a change only what comes later is painted again, with the same bytes", "[law][viewer]") {
    const SmallPlan small;
    const auto first = small.run(coarse_m);
    REQUIRE(first->outcome());
    const auto check = [&](const char* what, double least_from_s, const std::function<void(plan::Plan&)>& change) {
        INFO(what);
        const auto plan = changed(*first->shared_plan(), change);
        const auto run = Run::begin({.plan = plan, .cell_m = coarse_m, .threads = 1, .earlier = {first}});
        run->wait();
        REQUIRE(run->outcome());
        CHECK(run->progress().from_s >= least_from_s);
        CHECK(run->outcome()->dried.picture.rgb == look_of_own_run(*plan, coarse_m).picture.rgb);
        CHECK(run->outcome()->dried.picture.rgb != first->outcome()->dried.picture.rgb);
        const auto times = run->reel().times_s();
        CHECK(times.front() == 0); // what is common is there to be looked at
        CHECK(std::is_sorted(times.begin(), times.end()));
    };
    check("hills later", 60, [](plan::Plan& p) { std::get<plan::AfterStep>(p.steps[1].start).wait_s = 600; });
    check("hills sooner", 1, [](plan::Plan& p) { std::get<plan::AfterStep>(p.steps[1].start).wait_s = 60; });
    check("a stronger mix", 60, [](plan::Plan& p) { p.mixes[2].pigments[0].mass_fraction *= 1.5; });
    check("another paper", 0, [&](plan::Plan& p) { p.paper = *small.presets.paper("hot-pressed-300"); });
    check("another mask", 0, [](plan::Plan& p) { std::fill_n(p.areas[0].mask.value.begin() + 120 * 30, 120 * 10, 1.0f); });
}

TEST_CASE("a cancelled run stops and says so; nothing of it is judged", "[behaviour][viewer]") {
    const SmallPlan small;
    const auto run = Run::begin({.plan = small.plan(), .cell_m = 0.25e-3, .threads = 1});
    CHECK(becomes([&] { return run->reel().count() > 0; }));
    run->cancel();
    run->wait();
    CHECK(run->progress().is == RunProgress::Is::stopped);
    CHECK_FALSE(run->outcome());
    CHECK(run->progress().time_s < 600);
}

TEST_CASE("what goes wrong in a run is said, not thrown into the window", "[wrong][viewer]") {
    const SmallPlan small;
    const auto run = Run::begin({.plan = small.plan(), .cell_m = 1e-6, .threads = 1}); // more cells than there may be
    run->wait();
    CHECK(run->progress().is == RunProgress::Is::failed);
    CHECK(run->progress().problem.find("cell") != std::string::npos);
}

TEST_CASE("a plan on the table is shown coarse, then true; a change has a before and an after", "[behaviour][viewer]") {
    const SmallPlan small;
    Studio studio(small.presets, {.cell_m = 2.5e-3, .draft_cell_m = 5e-3});
    studio.open(small.file);
    const auto settled = [&] {
        return becomes([&] {
            studio.update();
            return studio.truth() && studio.truth()->outcome();
        });
    };
    REQUIRE(settled());
    REQUIRE(studio.draft());
    CHECK(studio.draft()->draft());
    CHECK(studio.draft()->cell_m() == 5e-3);
    CHECK_FALSE(studio.truth()->draft());
    CHECK(studio.judged() == studio.truth());
    CHECK(studio.shown(0) == studio.truth());
    CHECK_FALSE(studio.what_if());
    const auto first = studio.truth();

    studio.document().set("hills", "film_um", "110");
    studio.update();
    CHECK(studio.what_if());
    REQUIRE(settled());
    CHECK(studio.truth() != first);
    CHECK(studio.before(0) == first);
    CHECK(studio.truth()->progress().from_s > 0);
    CHECK(studio.truth()->outcome()->dried.picture.rgb != first->outcome()->dried.picture.rgb);

    studio.drop();
    CHECK_FALSE(studio.what_if());
    CHECK(studio.truth() == first); // nothing is painted again
    studio.document().undo();       // the drop is undone
    studio.update();
    CHECK(studio.what_if());
    studio.keep();
    CHECK_FALSE(studio.what_if());
    CHECK(studio.document().get("hills", "film_um") == "110");
    studio.set_cell(5e-3); // as coarse as the draft, but no draft
    CHECK(becomes([&] {
        studio.update();
        return studio.judged() && !studio.judged()->draft() && studio.judged()->cell_m() == 5e-3;
    }));
    studio.close();
    CHECK_FALSE(studio.is_open());
    studio.open_later(small.folder.path() / "no-such-plan.toml");
    CHECK(becomes([&] {
        studio.update();
        return !studio.opening();
    }));
    CHECK(studio.opening_failed().find("no-such-plan.toml") != std::string::npos);
    CHECK_FALSE(studio.is_open());
    studio.open_later(small.file);
    CHECK(becomes([&] {
        studio.update();
        return studio.is_open();
    }));
    CHECK(studio.opening_failed().empty());
    CHECK(studio.document().text() == small_plan_text());
}

TEST_CASE("a plan comes to the table with its reference's values, and with new ones when the picture is another", "[behaviour][viewer]") {
    const SmallPlan small;
    Studio studio(small.presets, {.cell_m = coarse_m, .only_draft = true});
    studio.open_later(small.file);
    REQUIRE(becomes([&] { return studio.update(), studio.is_open(); }));
    const auto first = studio.reference();
    REQUIRE(first);
    CHECK(first->map(60, 40).at(30, 35) < 60);
    studio.document().set("sky", "film_um", "90"); // the same picture: nothing is worked out anew
    studio.update();
    CHECK(studio.reference() == first);
    grid::Picture pale{120, 80, std::vector<std::uint8_t>(3 * 120 * 80, 230)};
    small.folder.put("reference.png", grid::png_bytes(pale));
    studio.read_again_later();
    CHECK(studio.reference() == first); // until it has been read
    REQUIRE(becomes([&] { return studio.update(), !studio.reading_again(); }));
    CHECK(studio.was_read_again() == "");
    CHECK_FALSE(studio.was_read_again());
    REQUIRE(studio.reference());
    CHECK(studio.reference()->map(60, 40).at(30, 35) > 85);
    CHECK(studio.document().text() == small_plan_text());
    std::filesystem::remove(small.file);
    studio.read_again_later();
    REQUIRE(becomes([&] { return studio.update(), !studio.reading_again(); }));
    CHECK(studio.was_read_again().value_or("").find("plan.toml") != std::string::npos);
    CHECK(studio.document().text() == small_plan_text()); // nothing is lost
    studio.stop();
}

TEST_CASE("a document that is put on the table has its reference's values a little later", "[behaviour][viewer]") {
    const SmallPlan small;
    Studio studio(small.presets, {.cell_m = coarse_m, .only_draft = true});
    studio.open(Document(small.file, small.presets));
    CHECK(becomes([&] { return studio.update(), studio.reference() != nullptr; }));
    studio.stop();
}

TEST_CASE("before and after are looked at in cells that both have", "[behaviour][viewer]") {
    const SmallPlan small;
    Studio studio(small.presets, {.cell_m = 2e-3, .draft_cell_m = 4e-3});
    studio.open(small.file);
    const auto finished = [](const std::shared_ptr<Run>& run) { return run && run->progress().is == RunProgress::Is::finished; };
    REQUIRE(becomes([&] { return studio.update(), finished(studio.truth()); }));
    studio.document().set("sheet", "tilt_deg", "5");
    REQUIRE(becomes([&] { return studio.update(), finished(studio.draft()); }));
    CHECK(studio.before(1e9)->cell_m() == 2e-3);
    const auto [after, before] = studio.compared(1e9); // the fine one of the change has hardly begun
    CHECK(after != before);
    CHECK(after->cell_m() == before->cell_m());
    studio.stop();
}

TEST_CASE("a plan read again with another mask is painted again, with the same one it is not", "[behaviour][viewer]") {
    const SmallPlan small;
    Studio studio(small.presets, {.cell_m = coarse_m, .only_draft = true});
    studio.open(small.file);
    REQUIRE(becomes([&] { return studio.update(), studio.draft() && studio.draft()->progress().is == RunProgress::Is::finished; }));
    const auto first = studio.draft();
    const auto again = [&] {
        studio.read_again_later();
        return becomes([&] { return studio.update(), !studio.reading_again(); });
    };
    REQUIRE(again());
    CHECK(studio.draft() == first);
    grid::GreyPicture mask{120, 80, std::vector<float>(120 * 80)};
    std::fill(mask.value.begin() + 120 * 20, mask.value.end(), 1.0f);
    small.folder.put("masks/hills.png", grid::png_bytes(mask));
    REQUIRE(again());
    CHECK(studio.draft() != first);
    studio.stop();
}

TEST_CASE("what was saved while a plan is read again is not lost to what was read", "[behaviour][viewer]") {
    const SmallPlan small;
    Document document(small.file, small.presets);
    auto fresh = document.reading_again()();
    CHECK(document.is_still(fresh));
    document.set("sky", "film_um", "90");
    document.save();
    CHECK_FALSE(document.is_still(fresh));
    CHECK(document.is_still(document.reading_again()()));
}
