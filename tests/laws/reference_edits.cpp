// What a painter changes about the masses, and takes back.
#include "grid/problem.h"
#include "reference/edits.h"
#include "reference_pictures.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::reference;

namespace {

/// Four columns of 10 × 30 pixels, 90, 20, 55, 90 L*; at 2 pixels a mm.
struct Scene {
    ValueMap map{40, 30, std::vector<float>(40 * 30)};
    Masses masses;
    Scene() {
        constexpr float values[] = {90, 20, 55, 90};
        for (int p = 0; p < 1200; ++p)
            map.lstar[p] = values[p % 40 / 10];
        masses = find_masses(group_values(map, 3), map); // 1, 2: the lights; 3: the midtone; 4: the dark
    }
    EditedMasses with(const std::vector<Edit>& edits) const { return edited(masses, map, 3, 2.0, edits); }
};

int area(const Masses& m, int x, int y) { return static_cast<int>(m.list[m.at(x, y)].pixels); }
int number(const EditedMasses& e, int x, int y) { return e.masses.list[e.masses.at(x, y)].number; }

} // namespace

TEST_CASE("no edit changes nothing, and leaving the last one out undoes it", "[law][reference]") {
    const Scene s;
    CHECK(s.with({}).masses.of == s.masses.of);
    const std::vector<Edit> two{{NameMass{"3", "wall"}, "--name 3=wall"}, {MergeMasses{"4", "wall"}, "--merge 4+wall"}};
    const EditedMasses after = s.with(two), before = s.with({two[0]});
    CHECK(after.masses.list.size() == 3);
    CHECK(after.names[after.masses.at(15, 0)] == "wall");
    CHECK(before.masses.of == s.masses.of);
    CHECK(before.names[before.masses.at(25, 0)] == "wall");
}

TEST_CASE("merged masses answer to either number and take the larger one's group", "[law][reference]") {
    const Scene s;
    const EditedMasses m = s.with({{MergeMasses{"4", "3"}, "a"}, {PushMass{"3", 1}, "b"}});
    // 4 and 3 are equal: the group of 4, the darkest; pushed one lighter; no neighbour in that group
    CHECK(m.masses.list[m.masses.at(15, 0)].group == 1);
    CHECK(area(m.masses, 25, 0) == 600);
    CHECK(m.masses.list.size() == 3);
}

TEST_CASE("what is pushed into its neighbour's group is one with it", "[law][reference]") {
    const Scene s;
    const EditedMasses m = s.with({{PushMass{"3", 1}, "--push 3:+1"}});
    CHECK(m.masses.list.size() == 3);
    CHECK(area(m.masses, 25, 0) == 600);
    CHECK(m.masses.at(25, 0) == m.masses.at(35, 0));
}

TEST_CASE("the number that is shown after edits is the one that answers", "[law][reference]") {
    const Scene s;
    const Edit up{PushMass{"3", 1}, "--push 3:+1"}; // the midtone joins the light beside it
    const EditedMasses shown = s.with({up});
    CHECK(number(shown, 5, 0) == 1);
    CHECK(number(shown, 25, 0) == 2);
    CHECK(number(shown, 15, 0) == 4); // found afresh, it would be the third
    const EditedMasses more = s.with({up, {PushMass{std::to_string(number(shown, 15, 0)), 1}, "--push"}});
    CHECK(more.masses.list[more.masses.at(15, 0)].group == 1);
    CHECK(more.masses.list[more.masses.at(25, 0)].group == 2);
}

TEST_CASE("what was joined shows its lowest number, whoever is named first, and what a split makes the next free one", "[law][reference]") {
    const Scene s;
    for (const MergeMasses& m : {MergeMasses{"4", "1"}, MergeMasses{"1", "4"}}) {
        const EditedMasses e = s.with({{m, "m"}});
        CHECK(number(e, 15, 0) == 1);
        REQUIRE(e.renumbered.size() == 1);
        CHECK(e.renumbered[0].stays == 1);
        CHECK(e.renumbered[0].gone == std::vector<int>{4});
        CHECK(e.renumbered[0].made.empty());
    }
    const EditedMasses split = s.with({{SplitMass{"4", 0, 10, 20, 10}, "s"}, {MergeMasses{"3", "4"}, "m"}, {NameMass{"2", "sky"}, "n"}});
    CHECK(number(split, 15, 0) == 3);
    CHECK(number(split, 15, 25) == 5);
    CHECK(number(split, 35, 0) == 2);
    REQUIRE(split.renumbered.size() == 2); // a name changes no number
    CHECK(split.renumbered[0].edit == "s");
    CHECK(split.renumbered[0].made == std::vector<int>{5});
    CHECK(split.renumbered[1].gone == std::vector<int>{4});
}

TEST_CASE("one push can join twenty thousand masses", "[law][reference]") {
    ValueMap map{400, 200, std::vector<float>(80000, 20.0f)}; // by a pass over the picture for each, it takes a minute
    for (int y = 0; y < 200; y += 2)
        for (int x = y % 4 / 2; x < 400; x += 2)
            map.lstar[y * 400 + x] = 60;
    const Masses masses = find_masses(group_values(map, 2), map);
    REQUIRE(masses.list.size() == 20001);
    const EditedMasses e = edited(masses, map, 2, 1.0, std::vector<Edit>{{PushMass{"20001", 1}, "up"}});
    CHECK(e.masses.list.size() == 1);
    CHECK(e.masses.list[0].number == 1);
    REQUIRE(e.renumbered.size() == 1);
    CHECK(e.renumbered[0].gone.size() == 20000);
    CHECK(e.renumbered[0].gone.back() == 20001);
}

TEST_CASE("a line splits a mass, and its parts can be named and merged apart", "[law][reference]") {
    const Scene s;
    const SplitMass low{"4", 0, 10, 20, 10}; // across the dark at y = 10 mm: 20 rows above, 10 below
    const EditedMasses m = s.with({{low, "--split"}, {PushMass{"5", 1}, "--push 5:+1"}, {NameMass{"4", "door"}, "--name"}});
    CHECK(m.names[m.masses.at(15, 0)] == "door"); // the larger part keeps the number
    CHECK(area(m.masses, 15, 0) == 200);
    CHECK(area(m.masses, 15, 25) == 400); // with the midtone, whose group it was pushed into
    std::int64_t all = 0;
    for (const Mass& mass : m.masses.list)
        all += mass.pixels;
    CHECK(all == 1200);
    const EditedMasses apart = s.with({{low, "--split"}});
    CHECK(apart.masses.list.size() == 5);
}

TEST_CASE("a line goes on keeping its sides apart, whatever is merged or split later", "[law][reference]") {
    const Scene s;
    const Edit across{SplitMass{"4", 0, 10, 20, 10}, "across"}, down{SplitMass{"4", 7.5, 0, 7.5, 15}, "down"};
    const auto parts_of_dark = [&](const std::vector<Edit>& edits) {
        const EditedMasses m = s.with(edits);
        return std::count_if(m.masses.list.begin(), m.masses.list.end(), [](const Mass& mass) { return mass.group == 0; });
    };
    CHECK(parts_of_dark({across, {PushMass{"5", 1}, "up"}, {PushMass{"5", -1}, "down again"}}) <= 2);
    CHECK(s.with({across, {PushMass{"4", 1}, "up"}, {PushMass{"4", -1}, "back"}}).masses.list.size() >= 4);
    // What is cut off 4 later is still apart from 5.
    CHECK(s.with({across, down, {PushMass{"6", 1}, "up"}, {PushMass{"6", -1}, "back"}}).masses.list.size() == 6);
    // And so is what 4 becomes part of.
    CHECK(s.with({across, {MergeMasses{"3", "4"}, "merge"}, {PushMass{"3", -1}, "darker"}}).masses.list.size() == 4);
    // 4 above, 5 below the line; 6 is cut off 4 by an upright one. Merging in either order leaves 5 apart.
    for (const char* a : {"4", "6"}) {
        const EditedMasses m = s.with({across, down, {MergeMasses{a, *a == '4' ? "6" : "4"}, "merge"}});
        CHECK(m.masses.list.size() == 5);
        CHECK(m.masses.at(15, 0) != m.masses.at(15, 25));
    }
}

TEST_CASE("an edit that can't be done is refused by its own words", "[wrong][reference]") {
    const Scene s;
    const auto refused = [&](std::vector<Edit> edits, const std::string& why) {
        CHECK_THROWS_WITH(s.with(edits), Catch::Contains(edits.back().shown_as) && Catch::Contains(why));
    };
    refused({{MergeMasses{"1", "9"}, "--merge 1+9"}}, "there is no mass \"9\"; allowed: 1 to 4");
    refused({{MergeMasses{"1", "2"}, "--merge 1+2"}}, "these masses don't touch");
    refused({{MergeMasses{"3", "3"}, "--merge 3+3"}}, "that is one mass already");
    refused({{PushMass{"4", -1}, "--push 4:-1"}}, "there is no such group; allowed: 0 to +2");
    refused({{PushMass{"4", 0}, "--push 4:0"}}, "no push");
    refused({{NameMass{"4", "a b"}, "--name 4=a b"}}, "is no name");
    refused({{NameMass{"4", "12"}, "--name 4=12"}}, "is no name");
    refused({{NameMass{"4", "door"}, "--name 4=door"}, {NameMass{"3", "door"}, "--name 3=door"}}, "the name of another");
    refused({{SplitMass{"4", 0, 50, 20, 50}, "--split far"}}, "beyond the sheet");
    refused({{SplitMass{"4", 0, 0.01, 20, 0.01}, "--split high"}}, "doesn't cross");
    refused({{SplitMass{"4", 3, 3, 3, 3}, "--split point"}}, "no direction");
}
