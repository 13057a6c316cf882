#include "pigment/advance.h"
#include "pigment/bind.h"
#include "pigment/stir.h"
#include "support/pigment_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::pigment_scene;

namespace {

/// One dried pass at every cell: 1 g/m² bound of each pigment, gum in the usual share.
sheet::SheetState dried(const std::vector<materials::Pigment>& pigments) {
    auto s = flooded(32, 32, 0, pigments);
    for (auto& p : s.pigments)
        p.bound.fill(1e-3f), p.inside.fill(1e-4f);
    s.gum_bound_kg_m2.fill(0.6f * 1.1e-3f * static_cast<float>(pigments.size()));
    return s;
}

double at(const sheet::SheetState& s, std::size_t k, int i, int j) {
    const auto& p = s.pigments[k];
    double sum = double(p.loose(i, j)) + p.bound(i, j) + p.inside(i, j) + p.afloat_lower(i, j) + p.afloat_upper(i, j);
    for (const auto& pass : s.passes)
        sum += pass.bound[k](i, j);
    return sum;
}

} // namespace

TEST_CASE("drying binds what lies loose, and only where the sheet is dry", "[law][pigment]") {
    auto s = flooded(32, 32, 0, {grain(2340, 2e-6)});
    auto& p = s.pigments[0];
    p.loose.fill(1e-3f), p.inside.fill(2e-4f), p.bound.fill(3e-4f);
    s.front_kg_m2(4, 4) = 0.2; // damp
    pigment::PigmentWorkspace w;
    auto whole = s;
    pigment::advance(s, w, 0.1);
    pigment::bind_dried(whole);
    for (const auto* sheet : {&s, &whole}) {
        const auto& q = sheet->pigments[0];
        CHECK(q.bound(3, 3) == Approx(1.3e-3));
        CHECK(q.loose(3, 3) == 0);
        CHECK(q.inside(3, 3) == 2e-4f);
        CHECK(q.loose(4, 4) == 1e-3f);
        CHECK(q.bound(4, 4) == 3e-4f);
    }
}

TEST_CASE("bind_dried sets down what a tile took to sleep, and leaves a film alone", "[law][pigment]") {
    auto s = flooded(32, 32, 0, {grain(1500, 0.1e-6)});
    s.film_m(1, 1) = 50e-6f;
    for (int i = 1; i <= 2; ++i)
        s.pigments[0].afloat_lower(i, 1) = 1e-3f, s.gum_upper_kg_m2(i, 1) = 1e-4f;
    pigment::bind_dried(s);
    CHECK(s.pigments[0].afloat_lower(1, 1) == 1e-3f);
    CHECK(s.pigments[0].afloat_lower(2, 1) == 0);
    CHECK(s.pigments[0].bound(2, 1) == 1e-3f);
    CHECK(s.gum_bound_kg_m2(2, 1) == 1e-4f);
}

TEST_CASE("a new pass keeps every mass, and staining loosens less", "[law][pigment]") {
    auto s = dried({grain(2340, 2e-6, 0.1), grain(1600, 0.1e-6, 0.9)});
    const double before[] = {at(s, 0, 5, 6), at(s, 1, 5, 6)};
    pigment::begin_pass(s, 5, 6);
    CHECK(at(s, 0, 5, 6) == Approx(before[0]).epsilon(1e-6));
    CHECK(at(s, 1, 5, 6) == Approx(before[1]).epsilon(1e-6));
    // At the usual gum half of 1 - staining, of what was bound.
    CHECK(s.pigments[0].afloat_lower(5, 6) == Approx(0.45e-3).epsilon(1e-4));
    CHECK(s.pigments[1].afloat_lower(5, 6) == Approx(0.05e-3).epsilon(1e-4));
    CHECK(s.pigments[0].bound(5, 6) == 0);
    CHECK(s.pigments[0].inside(5, 6) == 0);
    CHECK(s.pass_count(5, 6) == 1);
    CHECK(s.pass_count(5, 7) == 0);
    CHECK(s.pigments[0].bound(5, 7) == 1e-3f);
    pigment::begin_pass(s, 5, 6); // nothing bound any more: nothing to close
    CHECK(s.pass_count(5, 6) == 1);
    CHECK(s.pigments[0].afloat_lower(5, 6) == Approx(0.45e-3).epsilon(1e-4));
}

TEST_CASE("gum holds: the more of it, the less comes loose; no share leaves 0 to 1", "[law][pigment]") {
    CHECK(pigment::loosened_share(0.25, 0) == Approx(0.75));
    CHECK(pigment::loosened_share(0.25, 0.6) == Approx(0.375));
    CHECK(pigment::loosened_share(0.25, 2.0) < pigment::loosened_share(0.25, 1.0));
    CHECK(pigment::loosened_share(1, 0) == 0);
    CHECK(pigment::loosened_share(0, 0) == 1);
}

TEST_CASE("after eight passes the next one joins the top one", "[law][pigment]") {
    auto s = dried({grain(2340, 2e-6, 1.0)}); // all stays: each pass 1.1 g/m²
    for (int pass = 0; pass < 10; ++pass) {
        s.pigments[0].bound(2, 3) = 1e-3f, s.pigments[0].inside(2, 3) = 1e-4f;
        pigment::begin_pass(s, 2, 3);
    }
    CHECK(s.pass_count(2, 3) == 8);
    REQUIRE(s.passes.size() == 8);
    CHECK(s.passes[6].bound[0](2, 3) == Approx(1.1e-3));
    CHECK(s.passes[7].bound[0](2, 3) == Approx(3.3e-3));
    CHECK(s.passes[7].bound[0](2, 4) == 0);
}

TEST_CASE("no pass begins where a film stands or nothing lies", "[law][pigment]") {
    auto s = dried({grain(2340, 2e-6)});
    s.film_m(1, 1) = 50e-6f;
    pigment::begin_pass(s, 1, 1);
    CHECK(s.pass_count(1, 1) == 0);
    CHECK(s.pigments[0].bound(1, 1) == 1e-3f);
    s.pigments[0].bound(2, 2) = s.pigments[0].inside(2, 2) = 0;
    pigment::begin_pass(s, 2, 2);
    CHECK(s.pass_count(2, 2) == 0);
    CHECK(s.passes.empty());
}

TEST_CASE("a brush stirs up what is loose, in a film only, and keeps the mass", "[law][pigment]") {
    auto s = flooded(32, 32, 100e-6f, {grain(2340, 2e-6)});
    auto& p = s.pigments[0];
    p.loose.fill(1e-3f);
    s.film_m(2, 2) = 0;
    s.gum_lower_kg_m2(3, 3) = 1e-3f;
    const double before = everything(s, 0);
    for (const int i : {2, 3, 4})
        pigment::stir_cell(s, i, i, i == 4 ? 7.0 : 0.5);
    CHECK(p.loose(2, 2) == 1e-3f);
    CHECK(p.loose(3, 3) == Approx(0.5e-3));
    CHECK(p.afloat_upper(3, 3) > 0);
    CHECK(p.loose(4, 4) == 0); // strength is clamped to 1
    CHECK(p.afloat_upper(4, 4) == Approx(0.5e-3));
    CHECK(s.gum_upper_kg_m2(3, 3) == Approx(0.25e-3));
    CHECK(everything(s, 0) == Approx(before).epsilon(1e-6));
}
