// A good plan becomes the values it says, in SI.
#include "plan/plan_folder.h"
#include "plan/schedule.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using Catch::Detail::Approx;

namespace {

constexpr double degree = 0.017453292519943295;

plan::Plan good_plan() {
    const PlanFolder folder;
    std::ostringstream text;
    text << std::ifstream(TIDEMARK_TESTS_DIR "/plan/good.toml").rdbuf();
    return folder.read(text.str());
}

template <class T> const T& act(const plan::Plan& p, int step) { return std::get<T>(p.steps.at(step).act); }
template <class T> const T& start(const plan::Plan& p, int step) { return std::get<T>(p.steps.at(step).start); }

/// The least plan with these lines for its steps.
std::string plan_with(const std::string& steps) {
    return "tidemark = 1\n[sheet]\nsize_mm = [380, 280]\npaper = \"cold-pressed-300\"\n" + steps;
}

} // namespace

TEST_CASE("the sheet is read in SI", "[plan]") {
    const plan::Plan p = good_plan();
    CHECK(p.width_m == Approx(0.38));
    CHECK(p.height_m == Approx(0.28));
    CHECK(p.paper.id == "cold-pressed-300");
    CHECK(p.board == plan::Board::open);
    CHECK(p.tilt_rad == Approx(8 * degree));
    CHECK(p.tilt_direction_rad == Approx(90 * degree));
    CHECK(p.seed == 7);
    CHECK(p.room.id == "temperate-studio, changed by the plan");
    CHECK(p.room.temperature_K == Approx(298.15));
    CHECK(p.room.humidity == Approx(0.40));
    CHECK(p.room.air_m_s == Approx(0.3));
    CHECK(p.room.sun_W_m2 == Approx(100));
    REQUIRE(p.reference);
    CHECK(p.reference->groups == 4);
    CHECK(p.reference->picture.width == 38);
}

TEST_CASE("a name broken over two lines goes on with any letter, and no letter makes an escape", "[plan]") {
    // Each is one that the library promises not to be asked about: é, Greek, Cyrillic, a kana, an Arabic form, a sign. Only the
    // sanitizer is sure to see that promise broken.
    const PlanFolder folder;
    for (const char* letter : {"é", "Ω", "Б", "\u3042", "\uFEFD", "\u2e9f", "\u00D7"}) {
        CAPTURE(letter);
        const std::string name = std::string("sky ") + letter;
        const auto read = [&](const std::string& after_sky) {
            return folder.read(plan_with("[[step]]\nname = \"\"\"sky \\" + after_sky + "\"\"\"\ndo = \"wet\"\nwater_g_m2 = 100\n"));
        };
        CHECK(read(std::string("\n   ") + letter).steps.at(0).name == name);
        CHECK_THROWS_AS(read(letter), grid::BadInput);
        CHECK_THROWS_AS(folder.read(plan_with(std::string(letter) + " = 1\n")), grid::BadInput);
        CHECK_THROWS_AS(folder.read(plan_with(std::string("name = ") + letter + "\n")), grid::BadInput);
    }
}

TEST_CASE("what the sheet leaves out has its stated default", "[plan]") {
    const PlanFolder folder;
    const plan::Plan p = folder.read(plan_with("[[step]]\ndo = \"dry\"\nlongest = \"1:00\"\n"));
    CHECK(p.board == plan::Board::sealed);
    CHECK(p.tilt_rad == 0);
    CHECK(p.tilt_direction_rad == Approx(90 * degree));
    CHECK(p.seed == 1);
    CHECK(p.room.id == "temperate-studio");
    CHECK_FALSE(p.reference);
    CHECK(p.pigments.empty());
}

TEST_CASE("mixes are mass fractions of pigments in order of first use", "[plan]") {
    const plan::Plan p = good_plan();
    REQUIRE(p.pigments.size() == 3);
    CHECK(p.pigments[0].id == "PB29");
    CHECK(p.pigments[1].id == "PR101");
    CHECK(p.pigments[2].id == "PB15:3");
    REQUIRE(p.mixes.size() == 3);
    CHECK(p.mixes[0].name == "water");
    CHECK(p.mixes[0].pigments.empty());
    CHECK(p.mixes[0].gum_mass_fraction == 0);
    CHECK(p.mixes[1].pigments[0].mass_fraction == Approx(0.01));
    CHECK(p.mixes[1].pigments[1].mass_fraction == Approx(0.002));
    CHECK(p.mixes[1].gum_mass_fraction == Approx(0.6 * 0.012)); // 0.6 g a gram of pigment
    CHECK(p.mixes[2].pigments[0].pigment == 2);
    CHECK(p.mixes[2].pigments[1].pigment == 0);
    CHECK(p.mixes[2].gum_mass_fraction == Approx(0.015));
}

TEST_CASE("acts are read in SI", "[plan]") {
    const plan::Plan p = good_plan();
    CHECK(act<plan::Wet>(p, 0).side == plan::Side::both);
    CHECK(act<plan::Wet>(p, 0).water_kg_m2 == Approx(0.22));
    CHECK(p.steps[0].area() == plan::whole_sheet);
    const auto& wash = act<plan::Wash>(p, 1);
    CHECK(wash.mix == 1);
    CHECK(wash.film_m == Approx(120e-6));
    CHECK(wash.pace_m2_s == Approx(5e-4));
    CHECK(wash.travel == plan::Travel::from_point);
    CHECK(wash.from_x_m == Approx(0.020));
    CHECK(wash.from_y_m == Approx(0.015));
    const auto& charge = act<plan::Charge>(p, 2);
    CHECK(charge.mix == 0);
    CHECK(charge.count == 20);
    CHECK(charge.drop_m3 == Approx(30e-9));
    CHECK(charge.drop_radius_m == Approx(4e-3));
    CHECK(charge.seconds_per_drop == Approx(2));
    CHECK(act<plan::Tilt>(p, 3).angle_rad == Approx(20 * degree));
    CHECK(act<plan::Tilt>(p, 3).direction_rad == 0);
    CHECK(act<plan::Wash>(p, 4).travel == plan::Travel::downhill);
    CHECK(act<plan::Wash>(p, 4).pace_m2_s == Approx(6e-4)); // the default
    const auto& dry = act<plan::Dry>(p, 5);
    CHECK(dry.until == plan::Stage::dry);
    CHECK(dry.longest_s == 5400);
    CHECK(dry.warm_air);
    CHECK(dry.air_temperature_K == Approx(318.15));
    CHECK(dry.air_m_s == Approx(1.5));
    CHECK_FALSE(act<plan::Dry>(p, 6).until);
}

TEST_CASE("steps without a name are called by their verb", "[plan]") {
    const plan::Plan p = good_plan();
    const std::vector<std::string> names{"wet", "first light", "charge", "tilt", "wash", "dry", "dry 2"};
    for (std::size_t k = 0; k < names.size(); ++k)
        CHECK(p.steps[k].name == names[k]);
    CHECK(p.step_index("dry 2") == 6);
    CHECK(p.step_index("dry 3") == -1);
    CHECK(std::string(plan::act_word(p.steps[2].act)) == "charge");
    CHECK(p.steps[0].line == 29);
}

TEST_CASE("starts are read, and a step without one follows the step before", "[plan]") {
    const plan::Plan p = good_plan();
    CHECK(start<plan::AtTime>(p, 0).time_s == 0);
    CHECK(start<plan::AfterStep>(p, 1).step == 0);
    CHECK(start<plan::AfterStep>(p, 1).wait_s == 90);
    CHECK(start<plan::AtTime>(p, 2).time_s == 600);
    CHECK(start<plan::AfterStep>(p, 3).step == 2);
    CHECK(start<plan::AfterStep>(p, 3).wait_s == 0);
    CHECK(start<plan::WhenStage>(p, 4).area == p.area_index("sky"));
    CHECK(start<plan::WhenStage>(p, 4).is == plan::Stage::damp);
    CHECK(start<plan::WhenStage>(p, 4).longest_s == 1800);
}

TEST_CASE("areas come from [area.NAME] and from the masks of steps", "[plan]") {
    const plan::Plan p = good_plan();
    REQUIRE(p.areas.size() == 2);
    CHECK(p.area_index("hills") == 0);
    CHECK(p.area_index("sky") == 1);
    CHECK(p.area_index("sheet") == plan::whole_sheet);
    CHECK(p.area_index("sea") < plan::whole_sheet);
    CHECK(act<plan::Wash>(p, 1).area == 1);
    CHECK(act<plan::Wash>(p, 4).area == 0);
    CHECK(p.areas[1].mask.at(0, 0) == 1);
    CHECK(p.areas[1].mask.at(0, 27) == 0);
    CHECK(plan::area_m2(p, 1) == Approx(0.5 * 0.38 * 0.28));
    CHECK(plan::area_m2(p, plan::whole_sheet) == Approx(0.38 * 0.28));
}

TEST_CASE("one mask in two steps is one area, also before it is named", "[plan]") {
    const PlanFolder folder;
    const plan::Plan p =
        folder.read(plan_with("[[step]]\ndo = \"wet\"\nwater_g_m2 = 100\narea = \"sky\"\n"
                              "[[step]]\ndo = \"wet\"\nwater_g_m2 = 50\nmask = \"masks/sky.png\"\n"
                              "[[step]]\ndo = \"wet\"\nwater_g_m2 = 50\nmask = \"./masks/sky.png\"\n"));
    REQUIRE(p.areas.size() == 1);
    for (int k = 0; k < 3; ++k)
        CHECK(p.steps[k].area() == 0);
}

TEST_CASE("wants name areas, steps or the paper", "[plan]") {
    const plan::Plan p = good_plan();
    REQUIRE(p.wants.size() == 2);
    CHECK(p.wants[0].first == "hills");
    CHECK(p.wants[0].edge == plan::EdgeWord::soft);
    CHECK(p.wants[1].first == "first light");
    CHECK(p.wants[1].second == "paper");
    CHECK(p.wants[1].edge == plan::EdgeWord::hard);
    CHECK(p.wants[1].line == 84);
}

TEST_CASE("words are printed as they are read", "[plan]") {
    CHECK(std::string(plan::word(plan::Stage::moist)) == "moist");
    CHECK(std::string(plan::word(plan::EdgeWord::lost)) == "lost");
    CHECK(std::string(plan::word(plan::Board::absorbent)) == "absorbent");
    CHECK(std::string(plan::word(plan::Side::both)) == "both");
}

TEST_CASE("a byte-order mark, CRLF and accented letters in texts and comments are welcome", "[plan]") {
    const PlanFolder folder;
    const std::string lines = plan_with("# dégradé, “wet in wet”\n[[step]]\nname = \"première lumière\"\n"
                                        "do = \"wet\"\nwater_g_m2 = 100\n");
    std::string text("\xEF\xBB\xBF");
    for (const char c : lines) {
        if (c == '\n')
            text.push_back('\r');
        text.push_back(c);
    }
    const plan::Plan p = folder.read(text);
    CHECK(p.steps.at(0).name == "première lumière");
    CHECK(p.steps.at(0).line == 6);
}

TEST_CASE("small masks may round the sheet's aspect to whole pixels", "[plan]") {
    const PlanFolder folder;
    const auto white = [](int, int) { return true; };
    const std::string step = "[[step]]\ndo = \"wet\"\nwater_g_m2 = 100\nmask = \"small.png\"\n";
    folder.mask("small.png", 7, 5, white); // 1.4 : 1 for 1.357 : 1, but 5 × 1.357 = 6.8 rounds to 7
    CHECK(folder.said(plan_with(step)) == "");
    folder.mask("small.png", 6, 5, white);
    CHECK(folder.said(plan_with(step)) != "");
}
