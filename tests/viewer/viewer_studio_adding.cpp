// An act that is about to be added: tried first; and plans made of such acts on the masses of a picture.
#include "viewer/studio/own_plan.h"
#include "studio_scene.h"

#include "colour/lab.h"

#include "viewer/window/act_values.h"
#include "viewer/window/trade_verbs.h"

#include <catch2/catch.hpp>
#include <numeric>
#include <set>

using namespace tidemark;
using namespace tidemark::tests;
using namespace tidemark::viewer;

namespace {

Ground ground_of(const SmallPlan& small) { return {small_plan_text(), small.file, small.plan()}; }

Addition glaze(double pct) {
    Addition a{.act = {.verb = "wash", .name = "glaze", .area = "hills", .mix = "PB29"}, .mix = NewMix{"PB29", {{"PB29", pct}}}, .after_step = 3};
    a.act.film_um = 100, a.act.wait_s = 60;
    return a;
}

/// Pale above, grey below, as a value map has it: two masses, 280 × 187 mm.
struct TwoMasses {
    materials::Presets presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    grid::Picture picture{150, 100, std::vector<std::uint8_t>(3 * 150 * 100, 235)};
    reference::PictureMasses found;
    explicit TwoMasses(int border = 50) { draw(border); }
    void draw(int border) {
        for (int y = 0; y < 100; ++y)
            for (int x = 0; x < 150; ++x)
                for (int c = 0; c < 3; ++c) picture.at(x, y)[c] = y < border ? 235 : 90;
        found = reference::masses_in(picture, {.sheet = reference::sheet_for(150, 100, "hills.png"), .groups = 2});
    }
};

} // namespace

TEST_CASE("an act is tried before it is added: how light it dries, beside the reference there", "[law][viewer]") {
    const SmallPlan small;
    const Ground ground = ground_of(small);
    const Tried pale = tried(ground, glaze(0.5), small.presets), deep = tried(ground, glaze(4), small.presets);
    REQUIRE(pale.problem.empty());
    REQUIRE(pale.plan);
    CHECK(pale.step == 4);
    CHECK(pale.plan->steps[4].name == "glaze");
    REQUIRE(pale.dries);
    REQUIRE(deep.dries);
    CHECK(deep.dries->dry_L < pale.dries->dry_L - 1);
    // The picture below is grey 90: what is painted over half of it is compared with that.
    CHECK(pale.dries->reference_L == Approx(colour::lstar_from_srgb({90, 90, 90})).margin(1));
    // As the plan has it once the act is in it.
    Document d(small.file, small.presets);
    CHECK(d.add(glaze(0.5)) == 4);
    const auto in_plan = dries_to(*d.plan());
    CHECK(std::any_of(in_plan.begin(), in_plan.end(), [&](const DriesTo& s) { return s.step == 4 && s.dry_L == pale.dries->dry_L; }));
}

TEST_CASE("what can't be added says why, and an act without pigment foretells nothing", "[wrong][viewer]") {
    const SmallPlan small;
    const Ground ground = ground_of(small);
    Addition unknown = glaze(1);
    unknown.mix.reset(), unknown.act.mix = "bleu";
    const Tried t = tried(ground, unknown, small.presets);
    CHECK_FALSE(t.plan);
    CHECK(t.problem.find("bleu") != std::string::npos);
    CHECK(t.problem.find("blue") != std::string::npos); // what is allowed
    const Tried strong = tried(ground, glaze(400), small.presets);
    CHECK_FALSE(strong.problem.empty());
    const Tried lift = tried(ground, {.act = {.verb = "lift", .tool = "tissue"}, .after_step = 0}, small.presets);
    CHECK(lift.problem.empty());
    CHECK(lift.step == 1);
    CHECK_FALSE(lift.dries);
}

TEST_CASE("of what is tried in a row the last is known in the end", "[behaviour][viewer]") {
    const SmallPlan small;
    TryOut tries(small.presets, {});
    for (const double pct : {0.5, 1.0, 2.0, 3.0}) tries.ask(ground_of(small), glaze(pct));
    REQUIRE(becomes([&] { return !tries.busy(); }));
    REQUIRE(tries.newest());
    CHECK(tries.newest()->addition == glaze(3));
}

TEST_CASE("an act with its mix and its place is one change, between what the painter wrote", "[law][viewer]") {
    const SmallPlan small;
    Document d(small.file, small.presets);
    Addition a = glaze(1.5);
    a.area = NewArea{"the far hill", "masks/hills.png"}, a.act.area = "the far hill", a.act.wait_s.reset();
    a.act.when_area = "hills", a.act.when_is = "damp";
    a.act.more = {{"bead", "pick-up"}};
    a.after_step = 1;
    REQUIRE(d.add(a) == 2);
    const plan::Step& step = d.plan()->steps[2];
    CHECK(std::get<plan::WhenStage>(step.start).is == plan::Stage::damp);
    CHECK(std::get<plan::Wash>(step.act).bead == plan::Bead::picked_up);
    CHECK(d.plan()->areas[static_cast<std::size_t>(step.area())].name == "the far hill");
    CHECK(d.plan()->mixes.back().name == "PB29");
    CHECK(d.text().find("PB29 = 2        # thin") != std::string::npos);
    CHECK(d.text().find("wait = \"4:00\"  # it may be later") != std::string::npos);
    d.undo();
    CHECK(d.text() == small_plan_text());
}

TEST_CASE("acts on a picture's masses make a plan: areas are the masses, and go with them", "[behaviour][viewer]") {
    TwoMasses two;
    REQUIRE(two.found.masses.list.size() == 2);
    OwnPlan own(two.picture, "hills.png", two.found, two.presets);
    CHECK_FALSE(own.ground().plan);
    std::set<int> revisions{own.revision()};
    const auto is_another = [&] { return revisions.insert(own.revision()).second; };
    const TemporaryFolder folder;
    CHECK_THROWS_AS(own.write(folder.path() / "plan"), grid::BadInput); // no act yet
    Addition first{.act = {.verb = "wash", .name = "ground", .mix = "brown"}, .mix = NewMix{"brown", {{"PBr7-burnt-sienna", 3}}}};
    first.act.film_um = 90;
    first.area = own.area_of(two.found, {2});
    first.act.area = first.area->name;
    CHECK(own.area_of(two.found, {2}).name == first.area->name); // the same masses, the same area
    CHECK(own.area_of(two.found, {2, 1}).name == own.area_of(two.found, {1, 2}).name);
    const Tried before = tried(own.ground(), first, two.presets);
    CHECK(before.problem == "");
    REQUIRE(before.problem.empty());
    REQUIRE(before.dries);
    CHECK(before.dries->reference_L == Approx(own.lstar_in_key(colour::lstar_from_srgb({90, 90, 90}))).margin(1));
    own.add(first);
    CHECK(is_another());
    REQUIRE(own.ground().plan);
    Addition second{.act = {.verb = "lift", .area = first.area->name, .tool = "tissue"}, .area = first.area, .after_step = 0};
    own.add(second); // its area is there already
    CHECK(is_another());
    CHECK(own.ground().plan->areas.size() == 1);
    const auto dark_share = [](const plan::Plan& p) {
        const auto& v = p.areas[0].mask.value;
        return std::accumulate(v.begin(), v.end(), 0.0) / static_cast<double>(v.size());
    };
    CHECK(dark_share(*own.ground().plan) == Approx(0.5).margin(0.02));
    two.draw(40); // the ground has grown since
    own.follow(two.found);
    CHECK(dark_share(*own.ground().plan) == Approx(0.6).margin(0.02));
    own.take_out(1);
    CHECK(is_another());
    own.undo();
    CHECK(is_another());
    CHECK(own.ground().plan->steps.size() == 2);
    own.write(folder.path() / "plan");
    const plan::Plan written = plan::read_plan(folder.path() / "plan" / "plan.toml", two.presets);
    CHECK(written.steps.size() == 2);
    CHECK(dark_share(written) == Approx(0.6).margin(0.02));
    REQUIRE(written.reference);
    CHECK_THROWS_AS(own.write(folder.path() / "plan"), grid::BadInput); // a plan is there
    own.take_out(1), own.take_out(0);
    CHECK_FALSE(own.ground().plan); // as it began
    CHECK(is_another());
    own.undo(); // the last act is back, like any other
    CHECK(is_another());
    REQUIRE(own.ground().plan);
    CHECK(own.ground().plan->steps.size() == 1);
    own.redo();
    CHECK(is_another());
    CHECK_FALSE(own.ground().plan);
    CHECK_FALSE(own.can_redo());
    own.add(first);
    CHECK(is_another());
    for (int k = 0; k < 3; ++k) own.undo();
    REQUIRE(own.ground().plan);
    CHECK(own.ground().plan->steps.size() == 2);
    while (own.can_undo()) own.undo();
    CHECK_FALSE(own.ground().plan);
    while (own.can_redo()) own.redo();
    CHECK(own.ground().plan->steps.size() == 1);
    CHECK(own.ground().plan->steps[0].name == "ground");
}

TEST_CASE("the slip keeps room for the values of each act before they are known", "[behaviour][viewer]") {
    const SmallPlan small;
    for (const TradeVerb& verb : trade_verbs()) {
        INFO(verb.label);
        Addition a{.act = {.verb = verb.verb, .name = "it", .area = verb.has_place ? "hills" : "", .more = verb.usual}, .after_step = 3};
        if (verb.lays == Lays::mix) a.act.mix = "PB29", a.mix = NewMix{"PB29", {{"PB29", 2}}};
        const Tried t = tried(ground_of(small), a, small.presets);
        if (!t.plan) { // nothing can be uncovered here
            CHECK(verb.sliders == 0);
            continue;
        }
        const auto values = act_values(*t.plan, t.step);
        CHECK(std::count_if(values.begin(), values.end(), [](const ActValue& v) { return v.where == "it"; }) == verb.sliders);
    }
}
