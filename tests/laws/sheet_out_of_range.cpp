// Sheets, paper and layers beyond what they are meant for are refused by name and range, before anything is sized.
#include "sheet/look.h"
#include "sheet/relief.h"
#include "support/refused.h"

using namespace tidemark;
using materials::Paper;
using materials::Pigment;
using scene::said;
using scene::takes_only;

namespace {

const grid::Allowed side{0.01, 10'000, "mm", 1e-3}, cell{0.01, 100, "mm", 1e-3};

sheet::SheetState make(double width_m, double height_m, double cell_m, const Paper& paper = {},
                       const materials::Room& room = {}, const std::vector<Pigment>& pigments = {}) {
    return sheet::SheetState::make(width_m, height_m, cell_m, paper, room, sheet::BoardKind::sealed, pigments, 1);
}

struct Of {
    const char* name;
    grid::Allowed allowed;
    double Paper::*member;
};

} // namespace

TEST_CASE("a sheet's size and cell are refused out of range", "[law][sheet]") {
    takes_only("width_m", side, [](double m) { make(m, 0.1, 0.1); });
    takes_only("height_m", side, [](double m) { make(0.1, m, 0.1); });
    takes_only("cell_m", cell, [](double m) { make(1e-4, 1e-4, m); });
    CHECK(said([] { make(1, 1, 0.05e-3); }) == "cells of the sheet is 400 million; allowed: 0 to 100 million");
}

TEST_CASE("a sheet is not made of paper or in air out of range", "[law][sheet]") {
    const Of all[] = {{"paper.basis_kg_m2", {50, 1500, "g/m²", 1e-3}, &Paper::basis_kg_m2},
                      {"paper.gab_m0", {0.005, 0.2}, &Paper::gab_m0},
                      {"paper.gab_C", {2, 1000}, &Paper::gab_C},
                      {"paper.gab_K", {0.3, 0.99}, &Paper::gab_K},
                      {"paper.relief_rms_m", {0, 200, "µm", 1e-6}, &Paper::relief_rms_m},
                      {"paper.relief_corr_m", {0.05, 10, "mm", 1e-3}, &Paper::relief_corr_m}};
    for (const Of& of : all)
        takes_only(of.name, of.allowed, [&](double v) {
            Paper paper;
            paper.*of.member = v;
            make(8e-3, 8e-3, 0.5e-3, paper);
        });
    takes_only("room.humidity", {0, 1}, [](double v) {
        materials::Room room;
        room.humidity = v;
        make(8e-3, 8e-3, 0.5e-3, {}, room);
    });
}

// Why the isotherm's C begins at 2: moisture there and back for all of its range.
TEST_CASE("moisture and activity are each other's inverse for every isotherm that is allowed", "[law][sheet]") {
    for (const double C : {2.0, 12.0, 1000.0})
        for (const double K : {0.3, 0.82, 0.99})
            for (const double a : {0.01, 0.5, 0.99}) {
                Paper paper;
                paper.gab_C = C, paper.gab_K = K;
                CAPTURE(C, K, a);
                const double there = sheet::half_equilibrium_kg_m2(paper, a);
                CHECK(sheet::activity_of_half(paper, there) == Approx(a).epsilon(1e-9));
            }
}

TEST_CASE("a layer is refused with a load, K, S or white out of range", "[law][sheet]") {
    const Paper paper;
    const grid::Allowed spectrum{0, 1e5, "m²/kg"};
    const Pigment even;
    takes_only("load_kg_m2", {0, 10, "kg/m²"}, [&](double load) { sheet::dried_lstar(paper, {{&even, load}}); });
    for (auto [name, bands] : {std::pair{"pigment.K_m2_kg", &Pigment::K_m2_kg}, {"pigment.S_m2_kg", &Pigment::S_m2_kg}})
        for (const std::size_t band : {0, 15})
            takes_only(name, spectrum, [&, bands = bands](double v) {
                Pigment p;
                (p.*bands)[band] = static_cast<float>(v);
                sheet::dried_lstar(paper, {{&p, 1e-3}});
                sheet::look(make(2e-3, 2e-3, 0.5e-3, paper, {}, {p}), sheet::LookAs::dried);
            });
    takes_only("paper.white", {0, 1}, [](double v) {
        Paper p;
        p.white.at[7] = static_cast<float>(v);
        sheet::dried_lstar(p, {});
        sheet::look(make(2e-3, 2e-3, 0.5e-3, p), sheet::LookAs::dried);
    });
}
