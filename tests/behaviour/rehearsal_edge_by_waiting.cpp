// The first thing a painter learns of wet paper: the longer it has stood, the firmer an edge laid into it. By stage and
// by order, not by number (common practice); widths are 10-90 % of the change in L* of the dried sheet.
#include <catch2/catch.hpp>

#include "judge/edges.h"
#include "judge/transition.h"
#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"

#include <fmt/core.h>
#include <map>

using namespace tidemark;
using plan::Stage;

namespace {

/// A mix and how a brush brings it: thin from a full brush, thick from one that was wiped.
struct Laid {
    const char* name;
    double percent, film_m, drop_m3;
};
constexpr Laid thin{"thin", 0.3, 120e-6, 30e-9}, thick{"thick", 3, 40e-6, 10e-9};

plan::Plan wetted(const Laid& laid, double width_m, double height_m) {
    plan::Plan p = scene::small_sheet({{"PB15:3", laid.percent}});
    p.width_m = width_m, p.height_m = height_m;
    scene::add_step(p, "wet", 0, plan::Wet{.water_kg_m2 = 0.2});
    return p;
}

double laid_at_s(double minutes) { return 2 + 60 * minutes; }

struct Edge {
    double width_mm = 0;
    Stage met = Stage::wet; ///< what most of the stroke met
};

Edge edge_of(const rehearsal::Rehearsal& run, double edge_mm) {
    const auto& g = run.sheet().geometry;
    const double cell_mm = g.cell_m * 1e3;
    const auto l = scene::lightness_across(run.sheet());
    const int from = static_cast<int>((edge_mm - 12) / cell_mm), to = static_cast<int>((edge_mm + 40) / cell_mm);
    judge::Profile profile{(from + 0.5) * cell_mm - edge_mm, cell_mm, {}};
    for (int i = from; i < to; ++i) profile.lstar.push_back(static_cast<float>(l[i]));
    const sheet::ActRecord& stroke = run.record().acts.at(1);
    std::map<int, int> cells;
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i)
            if (stroke.cells.touched(i, j)) ++cells[static_cast<int>(stroke.cells.met(i, j))];
    const auto most = std::max_element(cells.begin(), cells.end(), [](auto& a, auto& b) { return a.second < b.second; });
    return {judge::measure_transition(profile).width_mm, static_cast<Stage>(most->first)};
}

const char* word_for(double width_mm) {
    const judge::EdgeRules rules;
    return plan::word(width_mm < rules.firm_from_mm    ? plan::EdgeWord::hard
                      : width_mm < rules.soft_from_mm  ? plan::EdgeWord::firm
                      : width_mm < rules.lost_above_mm ? plan::EdgeWord::soft
                                                       : plan::EdgeWord::lost);
}

/// Diameter, mm, of what a drop has coloured two minutes after it fell, less the drop's own.
double spread_mm(const Laid& laid, double minutes, double cell_m) {
    plan::Plan p = wetted(laid, 0.052, 0.052);
    const int spot = scene::add_band(p, "spot", 0.020, 0.032, 0.020);
    const double radius_m = 4e-3, fell_s = laid_at_s(minutes);
    scene::add_step(p, "drop", fell_s,
                    plan::Charge{.area = spot, .mix = 1, .count = 1, .drop_m3 = laid.drop_m3, .drop_radius_m = radius_m});
    const auto run = scene::played(p, cell_m, fell_s + 120);
    const auto look = sheet::look(run.sheet(), sheet::LookAs::dried);
    long coloured = 0;
    for (int j = 0; j < run.sheet().geometry.ny; ++j)
        for (int i = 0; i < run.sheet().geometry.nx; ++i) coloured += look.lstar(i, j) < 92; // paper: 94.6
    return 2e3 * (std::sqrt(static_cast<double>(coloured) / M_PI) * cell_m - radius_m);
}

} // namespace

TEST_CASE("an edge narrows from soft to hard as the paper it is laid on dries", "[behaviour][rehearsal]") {
    const double waits[] = {0, 1, 2, 4, 8, 16, 24, 32, 64}; // minutes; 24: the sheen has gone, the paper is still cool
    const double end_mm = 35;
    std::string table = "edge by waiting time, mm (10-90 %)\n";
    for (const double cell_m : {1e-3, 0.5e-3}) {
        std::map<std::string, std::map<double, Edge>> edges;
        for (const Laid& laid : {thin, thick}) {
            scene::ContactSheet sheet(fmt::format("edge-by-waiting-{}-{:.2g}mm", laid.name, cell_m * 1e3), 3, 8);
            table += fmt::format("{:5} cells of {:.1f} mm:", laid.name, cell_m * 1e3);
            for (const double wait : waits) {
                plan::Plan p = wetted(laid, 0.080, 0.020);
                const int band = scene::add_band(p, "stroke", 0.015, end_mm * 1e-3);
                scene::add_step(p, "stroke", laid_at_s(wait),
                                plan::Wash{.area = band, .mix = 1, .film_m = laid.film_m, .pace_m2_s = 10e-4});
                const auto run = scene::played(p, cell_m);
                const Edge e = edges[laid.name][wait] = edge_of(run, end_mm);
                table += fmt::format("  {:g} min {} {:.1f}", wait, plan::word(e.met), e.width_mm);
                sheet.add(run.sheet(), {fmt::format("{} mix, after {:g} min", laid.name, wait),
                                        fmt::format("{} paper: {}, {:.1f} mm", plan::word(e.met), word_for(e.width_mm),
                                                    e.width_mm)});
            }
            table += "\n";
            sheet.write();
        }
        INFO(table);
        for (auto& [name, e] : edges) {
            INFO(name << " mix, cells of " << cell_m * 1e3 << " mm");
            CHECK((e[0].met == Stage::wet && e[16].met == Stage::moist && e[24].met == Stage::damp));
            for (const double wait : {0, 1, 2, 4, 8, 16}) CHECK(e[wait].width_mm > 3); // soft or lost while there is a sheen
            CHECK(e[8].width_mm < 2.5 * e[0].width_mm); // a full film: near level
            CHECK(e[8].width_mm > e[16].width_mm);
            CHECK(e[16].width_mm > 2 * e[24].width_mm);
            CHECK(e[24].width_mm < 3);
            CHECK(e[24].width_mm > 1.5 * e[64].width_mm); // firm, while it is cool
            CHECK(e[32].width_mm <= e[24].width_mm + 0.1);
            CHECK(e[64].width_mm < 1); // hard
        }
        for (const double wait : {0, 1, 2, 4, 8}) // what is wetter runs further
            CHECK(edges["thin"][wait].width_mm > 1.5 * edges["thick"][wait].width_mm);
    }
    fmt::print("{}", table);
}

TEST_CASE("a drop spreads a centimetre on wet paper, not at all on paper that has lost its water", "[behaviour][rehearsal]") {
    for (const double cell_m : {1e-3, 0.5e-3}) {
        const double wet = spread_mm(thin, 4, cell_m), late = spread_mm(thin, 64, cell_m), stiff = spread_mm(thick, 4, cell_m);
        INFO("cells of " << cell_m * 1e3 << " mm: on wet paper " << wet << " mm, thick " << stiff << ", late " << late);
        CHECK(wet > 10);
        CHECK(stiff < 0.8 * wet);
        CHECK(late < 1);
    }
}
