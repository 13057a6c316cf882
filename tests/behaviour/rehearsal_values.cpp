// The values a painter reckons with: how much lighter a wash dries, what a second wash does to the first, what hides and
// what does not, how dark the darkest goes (common practice, where no source is named).
#include <catch2/catch.hpp>

#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"

#include <fmt/core.h>

using namespace tidemark;

namespace {

constexpr double cell_m = 1e-3, side_m = 0.030;

plan::Plan square(const std::vector<std::pair<const char*, double>>& mixes, const char* paper = "cold-pressed-300") {
    plan::Plan p = scene::small_sheet(mixes, paper);
    p.width_m = p.height_m = side_m;
    return p;
}
plan::Wash wash_of(int mix, int area = plan::whole_sheet) {
    return {.area = area, .mix = mix, .film_m = 100e-6, .pace_m2_s = 20e-4};
}
void then(plan::Plan& p, const char* name, plan::Stage stage, plan::Act act) {
    p.steps.push_back({.name = name, .line = 1,
                       .start = plan::WhenStage{plan::whole_sheet, stage, 12 * 3600, 0.95}, .act = act});
}
/// Mean L* over columns [from, to) mm, away from the upper and lower rim.
double lightness(const sheet::SheetState& s, sheet::LookAs as, double from_mm = 8, double to_mm = 22) {
    const auto look = sheet::look(s, as);
    double n = 0, sum = 0;
    const auto at = [&](double mm) { return static_cast<int>(mm * 1e-3 / s.geometry.cell_m + 0.5); };
    for (int j = at(8); j < at(22); ++j)
        for (int i = at(from_mm); i < at(to_mm); ++i) ++n, sum += look.lstar(i, j);
    return sum / n;
}
double dried(const rehearsal::Rehearsal& run, double from_mm = 8, double to_mm = 22) {
    return lightness(run.sheet(), sheet::LookAs::dried, from_mm, to_mm);
}

} // namespace

// 75 paints dry 2.3 L* lighter on average in mass tone, blacks most (MacEvoy). A pale wash lets the paper decide, which
// water darkens less here than on a board that shows through (colour/layer.h: scattering that pores lose is left out).
TEST_CASE("a wash dries two to four L* lighter, a mass tone most", "[behaviour][rehearsal]") {
    fmt::print("drying shift, L* wet -> dry at 0.5, 3 and 12 %\n");
    for (const char* id : {"PB29", "PBr7-burnt-sienna", "PR101", "PG18"}) {
        double shift[3];
        for (int k = 0; k < 3; ++k) {
            const double percent[] = {0.5, 3, 12};
            plan::Plan p = square({{id, percent[k]}});
            scene::add_step(p, "wash", 0, wash_of(1));
            const auto wet = scene::played(p, cell_m, 60), dry = scene::played(p, cell_m);
            const double before = lightness(wet.sheet(), sheet::LookAs::as_now), after = dried(dry);
            shift[k] = after - before;
            fmt::print("  {:18} {:4.1f} %: {:.1f} -> {:.1f}\n", id, percent[k], before, after);
        }
        INFO(id << ": " << shift[0] << ", " << shift[1] << ", " << shift[2]);
        CHECK((shift[0] > 1 && shift[0] < 8));
        CHECK(shift[1] > shift[0]);
        CHECK(shift[2] > shift[1]);
        CHECK(shift[2] < 5);
    }
}

/// Of all pigment of the first, the share that ends elsewhere.
double moved_share(const sheet::SheetState& before, const sheet::SheetState& after) {
    double sum = 0, whole = 0;
    for (int j = 0; j < before.geometry.ny; ++j)
        for (int i = 0; i < before.geometry.nx; ++i) {
            const double was = before.pigment_kg_m2(0, i, j);
            sum += std::abs(after.pigment_kg_m2(0, i, j) - was);
            whole += was;
        }
    return 0.5 * sum / whole;
}

// Clear water over half of a wash: into a full film, into a moist one, on dry paint. Red iron oxide takes minutes to settle;
// a granulating blue has settled by then, and of
// what the brush stirs up most sinks again where it was (a backwash does more: rehearsal_bloom.cpp).
TEST_CASE("a second wash laid too soon pushes the first aside, laid on a dry one it does not", "[behaviour][rehearsal]") {
    scene::ContactSheet sheet("second-wash", 4);
    for (const char* id : {"PR101", "PB29"}) {
        plan::Plan p = square({{id, 1}});
        const int half = scene::add_band(p, "half", 0, side_m / 2);
        scene::add_step(p, "paint", 0, wash_of(1));
        const auto alone = scene::played(p, cell_m);
        sheet.add(alone.sheet(), {fmt::format("{} alone", id)});
        const auto moved = [&](const char* when, plan::Start start) {
            plan::Plan q = p;
            q.steps.push_back({.name = "water", .line = 1, .start = start, .act = wash_of(0, half)});
            const auto run = scene::played(q, cell_m);
            sheet.add(run.sheet(), {fmt::format("water {}", when)});
            return moved_share(alone.sheet(), run.sheet());
        };
        const auto once = [](plan::Stage is) { return plan::WhenStage{plan::whole_sheet, is, 12 * 3600, 0.5}; };
        const double soon = moved("after a minute", plan::AtTime{60}), moist = moved("when moist", once(plan::Stage::moist)),
                     late = moved("on dry paint", once(plan::Stage::dry));
        fmt::print("second wash, clear water over half of {}: moves {:.1f} % after a minute, {:.1f} % when moist, "
                   "{:.1f} % on dry paint\n", id, 100 * soon, 100 * moist, 100 * late);
        INFO(id << ": " << soon << " after a minute, " << moist << " when moist, " << late << " when dry");
        CHECK(soon > 0.015);
        CHECK(soon > 1.5 * late);
        CHECK(moist > 1.2 * late);
    }
    sheet.write();
}

TEST_CASE("body colour hides by its weight, a dark wash over a light one darkens", "[behaviour][rehearsal]") {
    const auto over = [](double paint_kg_m2) {
        plan::Plan p = square({{"PB15:3", 4}, {"PW6", 30}});
        scene::add_step(p, "dark", 0, wash_of(1));
        if (paint_kg_m2 > 0)
            then(p, "white", plan::Stage::dry, plan::Body{.mix = 2, .paint_kg_m2 = paint_kg_m2, .pace_m2_s = 20e-4});
        return dried(scene::played(p, cell_m));
    };
    const double none = over(0), thin = over(0.01), middle = over(0.03), thick = over(0.08);
    fmt::print("white over a dark of L* {:.0f}: 10 g/m2 of paint {:.0f}, 30 {:.0f}, 80 {:.0f}\n", none, thin, middle, thick);
    CHECK(thin > none + 5);
    CHECK(middle > thin + 5);
    CHECK(thick > middle + 3);
    CHECK(thick > 75);

    plan::Plan p = square({{"PY42", 1}, {"PB29", 3}});
    scene::add_step(p, "light", 0, wash_of(1));
    const double light = dried(scene::played(p, cell_m));
    then(p, "dark", plan::Stage::dry, wash_of(2));
    CHECK(dried(scene::played(p, cell_m)) < light - 15);
}

TEST_CASE("a gap left in the second wash shows the first as it was", "[behaviour][rehearsal]") {
    plan::Plan p = square({{"PY42", 1}, {"PB29", 3}});
    const int left = scene::add_band(p, "left", 0, 10e-3), right = scene::add_band(p, "right", 20e-3, 30e-3);
    scene::add_step(p, "light", 0, wash_of(1));
    const double first = dried(scene::played(p, cell_m), 12, 18);
    then(p, "dark left", plan::Stage::dry, wash_of(2, left));
    then(p, "dark right", plan::Stage::dry, wash_of(2, right));
    const auto run = scene::played(p, cell_m);
    INFO("gap " << dried(run, 12, 18) << ", first wash " << first << ", beside it " << dried(run, 3, 7));
    CHECK(dried(run, 12, 18) == Approx(first).margin(1));
    CHECK(dried(run, 3, 7) < first - 15);
}

// Kubelka & Munk's layers add: the paint of two half washes looks as that of one. What differs is where water took it.
TEST_CASE("two washes of half the strength come within 2 L* of one of the full", "[behaviour][rehearsal]") {
    fmt::print("one pass of 2 %, two of 1 %: L*\n");
    for (const char* id : {"PB29", "PB15:3", "PR101", "PY43"}) {
        plan::Plan once = square({{id, 2}}), twice = square({{id, 1}});
        scene::add_step(once, "wash", 0, wash_of(1));
        scene::add_step(twice, "first", 0, wash_of(1));
        then(twice, "second", plan::Stage::dry, wash_of(1));
        const double one = dried(scene::played(once, cell_m)), two = dried(scene::played(twice, cell_m));
        fmt::print("  {:8} {:.1f}, {:.1f}\n", id, one, two);
        INFO(id);
        CHECK(two == Approx(one).margin(2));
    }
}

TEST_CASE("yellow never goes dark; the darkest washes go below L* 30", "[behaviour][rehearsal]") {
    const auto laid = [](const char* id, double percent) {
        plan::Plan p = square({{id, percent}});
        scene::add_step(p, "wash", 0, wash_of(1));
        return dried(scene::played(p, cell_m));
    };
    for (const char* id : {"PY3", "PY35"}) {
        INFO(id);
        CHECK(laid(id, 20) > 75); // mass tone; more than a brush lays
    }
    plan::Plan p = square({{"PB29", 6}, {"PBr7-burnt-umber", 6}});
    p.mixes.push_back({.name = "dark", .pigments = {{0, 0.06}, {1, 0.06}}, .gum_mass_fraction = 0.072});
    scene::add_step(p, "wash", 0, wash_of(3));
    const double mixed = dried(scene::played(p, cell_m));
    fmt::print("darkest: PB29 and umber {:.0f}, PG7 {:.0f}, PBk9 {:.0f}\n", mixed, laid("PG7", 6), laid("PBk9", 8));
    CHECK(mixed < 30);
    CHECK(laid("PG7", 6) < 30);
    CHECK(laid("PBk9", 8) < 30);
}
