#include "judge/strength.h"

#include "colour/lab.h"
#include "sheet/look.h"
#include "support/small_plan.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidemark;
using judge::Asks;

namespace {

/// Small sheet with an even grey reference; mix 1 is PB29 of 1 %, mix 2 PW6 of 30 %.
plan::Plan beside_grey(std::uint8_t grey) {
    plan::Plan p = scene::small_sheet({{"PB29", 1}, {"PW6", 30}}, "hot-pressed-300");
    p.reference = plan::Reference{
        .file = "grey.png", .picture = {60, 30, std::vector<std::uint8_t>(3 * 60 * 30, grey)}};
    return p;
}

double lightness(std::uint8_t grey) { return colour::lstar_from_srgb({grey, grey, grey}); }

std::vector<judge::Strength> judged(const plan::Plan& p) {
    std::vector<int> order;
    for (int k = 0; k < static_cast<int>(p.steps.size()); ++k)
        order.push_back(k);
    return judge::judge_strength(p, order);
}

void add_wash(plan::Plan& p, int area = plan::whole_sheet, double film_m = 100e-6) {
    scene::add_step(p, "wash", 60.0 * static_cast<double>(p.steps.size()), plan::Wash{.area = area, .mix = 1, .film_m = film_m});
}

double on_paper_L(const plan::Plan& p, double load_kg_m2) {
    return sheet::dried_lstar(p.paper, {{&p.pigments[0], load_kg_m2}});
}

} // namespace

TEST_CASE("one wash on bare paper dries as an even layer of its film's pigment", "[law][judge]") {
    plan::Plan p = beside_grey(128);
    add_wash(p);
    const auto s = judged(p);
    REQUIRE(s.size() == 1);
    CHECK(s[0].dry_L == Approx(on_paper_L(p, 1e-3)).margin(0.01)); // 1 % of 100 µm: a gram a square metre
    CHECK(s[0].below_L == Approx(on_paper_L(p, 0)).margin(0.01));
    CHECK(s[0].wet_L < s[0].dry_L - 2);
    CHECK(s[0].on_paper);
    CHECK(s[0].open_share == 1);
    CHECK(s[0].reference_L == Approx(lightness(128)).margin(0.01));
}

TEST_CASE("so many times the pigment dries to the lightness of the reference", "[law][judge]") {
    for (const int grey : {100, 115, 145, 200, 225}) {
        plan::Plan p = beside_grey(static_cast<std::uint8_t>(grey));
        add_wash(p, plan::whole_sheet, 60e-6);
        add_wash(p, scene::add_band(p, "left", 0, 0.030));
        const auto first = judged(p);
        INFO(grey);
        for (int k = 0; k < 2; ++k) {
            if (first[k].asks != Asks::other_load)
                continue;
            plan::Plan stronger = p;
            std::get<plan::Wash>(stronger.steps[k].act).film_m *= first[k].factor;
            CHECK(judged(stronger)[k].dry_L == Approx(first[k].reference_L).margin(0.5));
        }
        CHECK(first[0].asks == Asks::other_load);
    }
}

TEST_CASE("a second pass is offered when it comes near, and not when it does not", "[law][judge]") {
    int offered = 0, not_offered = 0;
    for (int grey = 40; grey < 230; grey += 5) {
        plan::Plan p = beside_grey(static_cast<std::uint8_t>(grey));
        add_wash(p);
        const judge::Strength one = judged(p)[0];
        if (one.asks != Asks::other_load)
            continue;
        add_wash(p);
        const bool near = std::abs(judged(p)[1].dry_L - one.reference_L) <= judge::close_L;
        CHECK(one.second_pass == near);
        ++(near ? offered : not_offered);
    }
    CHECK(offered > 0);
    CHECK(not_offered > 0);
}

TEST_CASE("what no load reaches is said: too dark, too light, or dark already", "[law][judge]") {
    plan::Plan black = beside_grey(0);
    add_wash(black);
    const judge::Strength s = judged(black)[0];
    CHECK(s.asks == Asks::never_darker);
    CHECK(s.darkest_L == Approx(on_paper_L(black, judge::most_factor * 1e-3)).margin(0.01));

    plan::Plan white = beside_grey(255);
    add_wash(white);
    CHECK(judged(white)[0].asks == Asks::never_lighter);

    plan::Plan pale = beside_grey(200);
    add_wash(pale, plan::whole_sheet, 400e-6);
    add_wash(pale);
    const judge::Strength over_dark = judged(pale)[1];
    CHECK(over_dark.asks == Asks::never_lighter);
    CHECK(over_dark.below_L < over_dark.reference_L - judge::close_L);
    CHECK(over_dark.over == std::vector<int>{0});

    plan::Plan near = beside_grey(0);
    add_wash(near);
    const double L = judged(near)[0].dry_L; // 8 bit steps are finer than what counts as close
    for (int grey = 0; lightness(static_cast<std::uint8_t>(grey)) < L; ++grey)
        near.reference->picture.rgb.assign(3 * 60 * 30, static_cast<std::uint8_t>(grey));
    CHECK(judged(near)[0].asks == Asks::close);
}

TEST_CASE("body colour lightens what lies below, and its load is asked for as any other", "[law][judge]") {
    plan::Plan p = beside_grey(190);
    add_wash(p, plan::whole_sheet, 300e-6);
    scene::add_step(p, "lights", 100, plan::Body{.mix = 2, .paint_kg_m2 = 0.01});
    const judge::Strength s = judged(p)[1];
    CHECK(s.dry_L > s.below_L + 5);
    REQUIRE(s.asks == Asks::other_load);
    std::get<plan::Body>(p.steps[1].act).paint_kg_m2 *= s.factor;
    CHECK(judged(p)[1].dry_L == Approx(s.reference_L).margin(0.5));
}

TEST_CASE("the reference is read where no later act comes, and not where next to nothing is left", "[law][judge]") {
    plan::Plan p = beside_grey(60);
    for (int y = 0; y < 30; ++y) // light where the second wash will be
        for (int x = 0; x < 20; ++x)
            for (int c = 0; c < 3; ++c)
                p.reference->picture.at(x, y)[c] = 230;
    add_wash(p);
    const int left = scene::add_band(p, "left", 0, 0.020), most = scene::add_band(p, "most", 0, 0.056);
    add_wash(p, left);
    CHECK(judged(p)[0].reference_L == Approx(lightness(60)).margin(0.01));
    CHECK(judged(p)[0].open_share == Approx(2.0 / 3).margin(0.01));
    CHECK(judged(p)[1].reference_L == Approx(lightness(230)).margin(0.01));
    scene::add_step(p, "lift", 300, plan::Lift{.area = most});
    CHECK(std::isnan(judged(p)[0].reference_L));
    CHECK(judged(p)[0].asks == Asks::nothing);
    CHECK(judged(p)[0].dry_L == Approx(on_paper_L(p, 1e-3)).margin(0.01));
}

TEST_CASE("resist keeps paint off: what comes after it is uncovered lies on white paper", "[law][judge]") {
    plan::Plan p = beside_grey(128);
    const int left = scene::add_band(p, "left", 0, 0.030);
    scene::add_step(p, "resist", 0, plan::Reserve{.area = left});
    add_wash(p);
    scene::add_step(p, "off", 200, plan::Uncover{.area = left});
    add_wash(p, left);
    add_wash(p);
    const auto s = judged(p);
    REQUIRE(s.size() == 3);
    CHECK(s[1].on_paper);
    CHECK(s[1].dry_L == Approx(on_paper_L(p, 1e-3)).margin(0.01));
    CHECK(s[2].dry_L == Approx(on_paper_L(p, 2e-3)).margin(0.01)); // one wash below on either side
    CHECK(s[2].over.empty());
    CHECK_FALSE(s[2].on_paper);
}

TEST_CASE("drops count as spread over their area; clear water and lifts are no strengths", "[law][judge]") {
    plan::Plan p = beside_grey(128);
    const int left = scene::add_band(p, "left", 0, 0.030);
    scene::add_step(p, "wet", 0, plan::Wet{});
    scene::add_step(p, "drops", 10, plan::Charge{.area = left, .mix = 1, .count = 45, .drop_m3 = 2e-9}); // 90 mg on 9 cm²
    scene::add_step(p, "water", 20, plan::Charge{.area = left, .mix = 0});
    scene::add_step(p, "lift", 30, plan::Lift{.area = scene::add_band(p, "right", 0.045, 0.060)});
    const auto s = judged(p);
    REQUIRE(s.size() == 1);
    CHECK(s[0].step == 1);
    CHECK(s[0].dry_L == Approx(on_paper_L(p, 1e-3)).margin(0.01));
}

TEST_CASE("strokes lay paint as far as their mark, and no ground beside it", "[law][judge]") {
    plan::Plan p = beside_grey(128);
    const int foot = scene::add_band(p, "all", 0, 0.060);
    scene::add_step(p, "stroke", 0,
                    plan::Wash{.mix = 1, .travel = plan::Travel::strokes, .strokes = {{{0.0, 0.008}, {0.060, 0.008}}}});
    add_wash(p, foot);
    const auto s = judged(p);
    CHECK(s[0].open_share == Approx(0).margin(1e-6));
    const double one = on_paper_L(p, 1e-3), two = on_paper_L(p, 2e-3), stroked = 12.0 / 30; // the mark of a loaded brush
    CHECK(s[1].dry_L == Approx(one + stroked * (two - one)).margin(0.3));
}

TEST_CASE("the masses as planned have each wash in the value that it dries to there", "[law][judge]") {
    plan::Plan p = beside_grey(128);
    add_wash(p, scene::add_band(p, "left", 0, 0.030));
    add_wash(p, scene::add_band(p, "middle", 0.015, 0.045));
    scene::add_step(p, "not played", 900, plan::Wash{.mix = 1, .film_m = 300e-6});
    const reference::ValueMap map = judge::planned_values(p, {0, 1});
    const auto at = [&](double x_m) { return map.at(static_cast<int>(x_m / p.width_m * map.width), map.height / 2); };
    CHECK(at(0.055) == Approx(on_paper_L(p, 0)).margin(0.01));
    CHECK(at(0.005) == Approx(on_paper_L(p, 1e-3)).margin(0.01));
    CHECK(at(0.040) == Approx(on_paper_L(p, 1e-3)).margin(0.01));
    CHECK(at(0.022) < on_paper_L(p, 1e-3) - 5); // one over the other

    scene::add_step(p, "resist", 950, plan::Reserve{.area = 0}), scene::add_step(p, "off", 1200, plan::Uncover{.area = 0});
    const reference::ValueMap kept = judge::planned_values(p, {3, 0, 1, 4});
    CHECK(kept.at(map.width / 12, map.height / 2) == Approx(on_paper_L(p, 0)).margin(0.01));
}
