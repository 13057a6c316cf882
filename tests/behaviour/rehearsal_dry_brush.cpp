// A nearly dry brush over papers of different tooth. Common practice: on rough paper the stroke breaks into sparkle, on
// hot-pressed paper it covers.
#include <catch2/catch.hpp>

#include "plan/coverage.h"
#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"

#include <fmt/core.h>
#include <map>

using namespace tidemark;

namespace {

struct Stroke {
    double bare = 0;       ///< share of the stroke's cells that stayed paper
    double gap_mm = 0;     ///< mean length of bare stretches along the stroke
    double contrast = 0;   ///< L* of bare paper less that of what was painted
};

Stroke read(const rehearsal::Rehearsal& run, const plan::Plan& p) {
    const auto& g = run.sheet().geometry;
    const auto l = sheet::look(run.sheet(), sheet::LookAs::dried).lstar;
    const auto cover = plan::coverage(p, 0, g.nx, g.ny);
    const double paper = sheet::dried_lstar(p.paper, {});
    double bare = 0, cells = 0, stretches = 0, dark = 0;
    for (int j = 0; j < g.ny; ++j) {
        bool before = false;
        for (int i = 0; i < g.nx; ++i) {
            if (cover(i, j) < plan::half_covered) continue;
            const bool is = l(i, j) > paper - 2;
            cells += 1, bare += is, stretches += is && !before;
            dark += is ? 0 : l(i, j);
            before = is;
        }
    }
    return {bare / cells, stretches > 0 ? bare / stretches * g.cell_m * 1e3 : 0, cells > bare ? paper - dark / (cells - bare) : 0};
}

} // namespace

TEST_CASE("a dry brush breaks on rough paper and covers on hot-pressed", "[behaviour][rehearsal]") {
    std::string table = "a dry brush, 40 um on what it touches: paper left, mean gap along the stroke, contrast\n";
    scene::ContactSheet sheet("dry-brush", 2, 10);
    std::map<std::string, std::vector<Stroke>> strokes;
    for (const char* paper : {"rough-300", "rough-640", "cold-pressed-300", "hot-pressed-300"})
        for (const double cell_m : {0.5e-3, 0.25e-3}) {
            plan::Plan p = scene::small_sheet({{"PB15:3", 6}}, paper);
            p.areas.push_back({.name = "stroke", .file = {}, .mask = {}, .form = plan::Rectangle{5e-3, 8e-3, 50e-3, 14e-3}});
            scene::add_step(p, "drag", 0, plan::Drybrush{.area = 0, .mix = 1});
            const auto run = scene::played(p, cell_m);
            const Stroke s = read(run, p);
            strokes[paper].push_back(s);
            table += fmt::format("{:16} {:.2f} mm cells: {:4.0f} %, {:.2f} mm, {:.0f} L*\n", paper, cell_m * 1e3, 100 * s.bare,
                                 s.gap_mm, s.contrast);
            sheet.add(run.sheet(), {fmt::format("{}, {:.2f} mm", paper, cell_m * 1e3), fmt::format("{:.0f} % paper", 100 * s.bare)});
        }
    sheet.write();
    INFO(table);
    for (const auto& [paper, s] : strokes) {
        INFO(paper);
        CHECK(s[0].bare == Approx(s[1].bare).margin(0.03));
        CHECK(s[0].gap_mm == Approx(s[1].gap_mm).epsilon(0.1));
        CHECK(s[0].contrast > 25);
    }
    for (const char* rough : {"rough-300", "rough-640"}) { // half of it paper, in gaps as wide as a few of its hills
        CHECK(strokes[rough][0].bare > 0.4);
        CHECK(strokes[rough][0].bare < 0.75);
        CHECK(strokes[rough][0].gap_mm > 2);
    }
    CHECK(strokes["cold-pressed-300"][0].bare > 0.1);
    CHECK(strokes["cold-pressed-300"][0].bare < strokes["rough-300"][0].bare - 0.1);
    CHECK(strokes["cold-pressed-300"][0].gap_mm < strokes["rough-300"][0].gap_mm);
    CHECK(strokes["hot-pressed-300"][0].bare < 0.01);
    fmt::print("{}", table);
}
