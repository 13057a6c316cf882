// Rules by which no edge could be judged are refused by name and range.
#include "judge/boundary.h"
#include "judge/edges.h"
#include "support/refused.h"

using namespace tidemark;
using scene::takes_only;

TEST_CASE("outlines are refused with a spacing, blur or cell out of range", "[law][judge]") {
    grid::Field<float> disc(24, 24);
    for (int j = 8; j < 16; ++j)
        for (int i = 8; i < 16; ++i)
            disc(i, j) = 1;
    const grid::Allowed mm{0.01, 100, "mm"};
    takes_only("cell_mm", mm, [&](double v) { judge::trace_outlines(disc, v); });
    takes_only("spacing_mm", mm, [&](double v) { judge::trace_outlines(disc, 0.5, {.spacing_mm = v}); });
    takes_only("normal_blur_mm", mm, [&](double v) { judge::trace_outlines(disc, 0.5, {.normal_blur_mm = v}); });
}

TEST_CASE("edges are refused by rules out of range", "[law][judge]") {
    const grid::Field<float> lstar(4, 4);
    const auto judged = [&](const judge::EdgeRules& r) { judge::judge_edges({}, {}, lstar, {.nx = 4, .ny = 4}, r); };
    using judge::EdgeRules;
    struct Of {
        const char* name;
        bool is_lightness;
        double EdgeRules::*member;
    };
    const Of all[] = {{"firm_from_mm", false, &EdgeRules::firm_from_mm},
                      {"soft_from_mm", false, &EdgeRules::soft_from_mm},
                      {"lost_above_mm", false, &EdgeRules::lost_above_mm},
                      {"lost_below_L", true, &EdgeRules::lost_below_L},
                      {"tidemark_from_L", true, &EdgeRules::tidemark_from_L},
                      {"reach_mm", false, &EdgeRules::reach_mm},
                      {"window_mm", false, &EdgeRules::window_mm},
                      {"least_length_mm", false, &EdgeRules::least_length_mm}};
    const grid::Allowed mm{0.01, 1000, "mm"}, lightness{0, 100, "L*"};
    for (const Of& of : all)
        takes_only(of.name, of.is_lightness ? lightness : mm, [&](double v) {
            EdgeRules rules;
            rules.*of.member = v;
            judged(rules);
        });
    takes_only("rim_reach_mm", mm, [&](double v) { judged({.transition = {.rim_reach_mm = v}, .stretch = {}}); });
    takes_only("plateau_mm", mm, [&](double v) { judged({.transition = {.plateau_mm = v}, .stretch = {}}); });
    takes_only("least_mm", mm, [&](double v) { judged({.transition = {}, .stretch = {.least_mm = v}}); });
    takes_only("change", {0, 1000, "octave-millimetres"},
               [&](double v) { judged({.transition = {}, .stretch = {.change = v}}); });
    takes_only("least_contrast_L", lightness, [&](double v) { judged({.transition = {.least_contrast_L = v}, .stretch = {}}); });
}
