// Colours of pigments come from the presets; the numbers beside them were computed with a separate implementation of
// the same optics (Kubelka & Munk layer, Saunderson surface, CIE 1931, D65) in another language.
#include <omp.h>

#include <catch2/catch.hpp>
#include <chrono>

#include "colour/lab.h"
#include "materials/presets.h"
#include "sheet/look.h"

using namespace tidemark;
using materials::Presets;
using sheet::LookAs;
using sheet::SheetState;

namespace {

const Presets& presets() {
    static const Presets all = Presets::read(TIDEMARK_PRESETS_DIR);
    return all;
}

/// 20 × 12 cells of cold-pressed paper with room for these pigments, dry.
SheetState dry_sheet(const std::vector<const char*>& ids, const char* paper = "cold-pressed-300") {
    std::vector<materials::Pigment> pigments;
    for (const char* id : ids) pigments.push_back(*presets().pigment(id));
    return SheetState::make(10e-3, 6e-3, 0.5e-3, *presets().paper(paper), {}, sheet::BoardKind::sealed, pigments, 3);
}

void add_pass(SheetState& s, const std::vector<float>& kg_m2) {
    sheet::Pass pass;
    for (const float load : kg_m2) pass.bound.emplace_back(s.geometry.px, s.geometry.py, load);
    s.passes.push_back(std::move(pass));
}

colour::Lab lab_of(const sheet::Look& l) {
    const std::uint8_t* c = l.picture.at(3, 3);
    return colour::lab_from_srgb({c[0], c[1], c[2]});
}

float lstar(const SheetState& s, LookAs as) { return sheet::look(s, as).lstar(3, 3); }

} // namespace

TEST_CASE("bare paper looks as it was measured", "[law][sheet]") {
    const SheetState s = dry_sheet({});
    const auto seen = sheet::look(s, LookAs::dried);
    CHECK(seen.lstar.nx() == s.geometry.nx);
    CHECK(seen.picture.rgb.size() == 3u * 20 * 12);
    const colour::Lab paper = colour::lab_from(colour::xyz_from(s.paper.white));
    CHECK(seen.lstar(0, 0) == Approx(paper.L).margin(1e-3));
    CHECK(seen.lstar(19, 11) == Approx(94.63).margin(0.01));
    CHECK(lab_of(seen).b == Approx(paper.b).margin(0.4)); // half a code in each channel
}

TEST_CASE("single pigments dry to the colours computed apart", "[law][sheet]") {
    struct Row { const char* id; double g_m2, L, a, b; int r, g, blue; };
    const Row rows[] = {{"PB29", 0.1, 91.266, -0.567, -1.885, 227, 230, 233},
                        {"PB29", 1, 69.606, 2.755, -29.784, 142, 171, 224},
                        {"PB29", 8, 30.417, 27.179, -52.412, 51, 61, 155},
                        {"PB28", 3, 59.402, 0.969, -44.172, 76, 147, 220}};
    for (const Row& row : rows) {
        SheetState s = dry_sheet({row.id});
        s.pigments[0].loose.fill(static_cast<float>(row.g_m2 * 0.5e-3));
        s.pigments[0].bound.fill(static_cast<float>(row.g_m2 * 0.3e-3));
        s.pigments[0].inside.fill(static_cast<float>(row.g_m2 * 0.2e-3));
        const auto seen = sheet::look(s, LookAs::dried);
        INFO(row.id << ' ' << row.g_m2 << " g/m2");
        CHECK(seen.lstar(3, 3) == Approx(row.L).margin(0.02)); // K and S are tabled to four digits
        const std::uint8_t* c = seen.picture.at(3, 3);
        CHECK(std::abs(c[0] - row.r) <= 1);
        CHECK(std::abs(c[1] - row.g) <= 1);
        CHECK(std::abs(c[2] - row.blue) <= 1);
        CHECK(sheet::dried_lstar(s.paper, {{presets().pigment(row.id), row.g_m2 * 1e-3}}) ==
              Approx(seen.lstar(3, 3)).margin(1e-3));
    }
}

TEST_CASE("a layer by itself is the look of a sheet that holds it, dry and soaked under a film", "[law][sheet]") {
    for (const char* id : {"PB29", "PY35", "PBk6", "PW6"}) {
        SheetState s = dry_sheet({id});
        s.pigments[0].loose.fill(0.4e-3f);
        s.pigments[0].bound.fill(0.6e-3f);
        const auto lightness = [&](LookAs as) {
            return colour::lab_from(colour::xyz_from(sheet::layer_seen(s.paper, {{presets().pigment(id), 1e-3}}, as))).L;
        };
        INFO(id);
        CHECK(lightness(LookAs::dried) == Approx(lstar(s, LookAs::dried)).margin(1e-3));
        s.film_m.fill(100e-6f);
        s.front_kg_m2.fill(sheet::half_capacity_kg_m2(s.paper));
        CHECK(lightness(LookAs::as_now) == Approx(lstar(s, LookAs::as_now)).margin(1e-3));
        CHECK(lightness(LookAs::as_now) < lightness(LookAs::dried));
    }
}

TEST_CASE("mixed and glazed colours are those computed apart", "[law][sheet]") {
    struct Row { const char *one, *two; float one_g, two_g; double mixed, glazed; };
    const Row rows[] = {{"PB29", "PBr7-burnt-sienna", 5, 3.6f, 27.8, 30.2},
                        {"PB15:3", "PY3", 0.12f, 0.7f, 70.9, 71.3},
                        {"PY42", "PB28", 1.2f, 2.5f, 53.2, 51.6},
                        {"PB29", "PW6", 1, 6, 78.3, 86.0}};
    for (const Row& row : rows) {
        INFO(row.one << " and " << row.two);
        SheetState mixed = dry_sheet({row.one, row.two}), glazed = mixed;
        mixed.pigments[0].bound.fill(row.one_g * 1e-3f);
        mixed.pigments[1].bound.fill(row.two_g * 1e-3f);
        CHECK(lstar(mixed, LookAs::dried) == Approx(row.mixed).margin(0.06)); // one decimal
        add_pass(glazed, {row.one_g * 1e-3f, 0});
        glazed.pigments[1].bound.fill(row.two_g * 1e-3f);
        CHECK(lstar(glazed, LookAs::dried) == Approx(row.glazed).margin(0.06));
    }
}

TEST_CASE("the same paint in one pass or in two halves looks the same", "[law][sheet]") {
    SheetState one = dry_sheet({"PB29", "PY42"}), two = one;
    one.pigments[0].bound.fill(2e-3f);
    one.pigments[1].bound.fill(1e-3f);
    add_pass(two, {1e-3f, 0.5e-3f});
    two.pigments[0].loose.fill(1e-3f);
    two.pigments[1].inside.fill(0.5e-3f);
    CHECK(lstar(one, LookAs::dried) == Approx(lstar(two, LookAs::dried)).margin(1e-3));
}

TEST_CASE("the order of two passes matters: white over blue hides, blue over white does not", "[law][sheet]") {
    SheetState under = dry_sheet({"PB29", "PW6"}), over = under;
    add_pass(under, {3e-3f, 0}), add_pass(under, {0, 8e-3f});
    add_pass(over, {0, 8e-3f}), add_pass(over, {3e-3f, 0});
    CHECK(lstar(under, LookAs::dried) > lstar(over, LookAs::dried) + 10);
}

TEST_CASE("what is afloat dries in place", "[law][sheet]") {
    SheetState afloat = dry_sheet({"PV19"}), down = afloat;
    afloat.film_m.fill(200e-6f);
    afloat.pigments[0].afloat_lower.fill(0.3e-3f);
    afloat.pigments[0].afloat_upper.fill(0.2e-3f);
    down.pigments[0].bound.fill(0.5e-3f);
    CHECK(lstar(afloat, LookAs::dried) == Approx(lstar(down, LookAs::dried)).margin(1e-3));
    CHECK(lstar(afloat, LookAs::as_now) < lstar(afloat, LookAs::dried)); // seen through water
}

TEST_CASE("paint afloat lies over the paint that has settled", "[law][sheet]") {
    SheetState white_afloat = dry_sheet({"PB29", "PW6"}), blue_afloat = white_afloat;
    white_afloat.pigments[0].loose.fill(3e-3f), white_afloat.pigments[1].afloat_lower.fill(8e-3f);
    blue_afloat.pigments[1].loose.fill(8e-3f), blue_afloat.pigments[0].afloat_lower.fill(3e-3f);
    CHECK(lstar(white_afloat, LookAs::as_now) > lstar(blue_afloat, LookAs::as_now) + 10);
}

TEST_CASE("a wash is darker wet than dry, and damp paper lies in between", "[law][sheet]") {
    SheetState s = dry_sheet({"PB29"});
    s.pigments[0].bound.fill(0.5e-3f);
    const float dry = lstar(s, LookAs::as_now);
    CHECK(dry == lstar(s, LookAs::dried));
    s.front_kg_m2.fill(sheet::half_capacity_kg_m2(s.paper) / 2);
    const float damp = lstar(s, LookAs::as_now);
    s.front_kg_m2.fill(sheet::half_capacity_kg_m2(s.paper));
    const float full = lstar(s, LookAs::as_now);
    s.film_m.fill(150e-6f);
    const float wet = lstar(s, LookAs::as_now);
    CHECK(dry > damp);
    CHECK(damp > full);
    CHECK(full > wet);
    CHECK(dry - wet > 4); // painters reckon with 5 to 10 L* in the mid-tones (common practice); the model is a lower bound
    CHECK(dry - wet < 12);
    CHECK(lstar(s, LookAs::dried) == dry); // water is not paint
}

TEST_CASE("water that the fibres bind does not darken the paper", "[law][sheet]") {
    const auto& paper = *presets().paper("cold-pressed-300");
    CHECK(sheet::wet_share(paper, 0) == 0);
    CHECK(sheet::wet_share(paper, sheet::half_equilibrium_kg_m2(paper, 0.99)) == 0);
    CHECK(sheet::wet_share(paper, sheet::half_equilibrium_kg_m2(paper, 1.0) + 0.01) > 0);
    CHECK(sheet::wet_share(paper, sheet::half_capacity_kg_m2(paper)) == Approx(1));
    CHECK(sheet::wet_share(paper, 5) == 1);
}

TEST_CASE("the look is the same for any number of threads", "[law][sheet]") {
    SheetState s = SheetState::make(90e-3, 70e-3, 0.5e-3, *presets().paper("rough-300"), {},
                                    sheet::BoardKind::sealed, {*presets().pigment("PB29")}, 3);
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            s.pigments[0].bound(i, j) = 1e-5f * static_cast<float>((i * 7 + j * 13) % 300);
            s.film_m(i, j) = (i + j) % 3 == 0 ? 1e-4f : 0;
        }
    const int before = omp_get_max_threads();
    omp_set_num_threads(1);
    const auto one = sheet::look(s, LookAs::as_now);
    omp_set_num_threads(3);
    const auto three = sheet::look(s, LookAs::as_now);
    omp_set_num_threads(before);
    CHECK(one.picture.rgb == three.picture.rgb);
    for (int j = 0; j < s.geometry.ny; ++j)
        CHECK(std::equal(one.lstar.row(j), one.lstar.row(j) + s.geometry.nx, three.lstar.row(j)));
}
