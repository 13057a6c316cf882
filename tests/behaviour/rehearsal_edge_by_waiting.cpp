#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include "judge/transition.h"
#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"
using namespace tidemark;
namespace {
struct Mixing { const char* name; double percent, film_m; };
plan::Plan wetted(double percent, double water) {
    plan::Plan p = scene::small_sheet({{"PB15:3", percent}});
    p.width_m = 0.080, p.height_m = 0.020;
    scene::add_step(p, "wet", 0, plan::Wet{.water_kg_m2 = water});
    return p;
}
}
TEST_CASE("zz wait", "[behaviour][rehearsal]") {
    const double water = std::getenv("WATER") ? atof(std::getenv("WATER")) : 0.2;
    for (const Mixing& m : {Mixing{"thin", 0.3, 120e-6}, Mixing{"thick", 3, 40e-6}})
    for (double cell_m : {1e-3, 0.5e-3}) {
        scene::ContactSheet sheet(std::string("edge-by-waiting-") + m.name + (cell_m < 0.7e-3 ? "-05" : "-1"), 4);
        for (double wait : {12.0, 14.0, 16.0, 17.0, 18.0, 20.0, 22.0, 24.0, 28.0, 32.0,64.0,100.0}) {
            plan::Plan p = wetted(m.percent, water);
            const int band = scene::add_band(p, "stroke", 0.015, 0.035);
            scene::add_step(p, "stroke", 2 + 60 * wait, plan::Wash{.area = band, .mix = 1, .film_m = m.film_m, .pace_m2_s = 10e-4});
            const auto run = scene::played(p, cell_m);
            const auto l = scene::lightness_across(run.sheet());
            judge::Profile f{-15, cell_m * 1e3, {}};
            for (int i = int(0.020/cell_m); i < int(l.size()) - int(3e-3/cell_m); ++i) f.lstar.push_back(float(l[i]));
            f.from_mm = (0.020 + 0.5*cell_m - 0.035)*1e3;
            const auto t = judge::measure_transition(f);
            const auto& met = run.record().acts[1].met; const auto& touched = run.record().acts[1].touched;
            int c[4] = {}; for (int j=0;j<run.sheet().geometry.ny;++j) for(int i=0;i<run.sheet().geometry.nx;++i) if (touched(i,j)) ++c[met(i,j)];
            int best = 0; for (int k=1;k<4;++k) if (c[k]>c[best]) best=k;
            char a[99]; snprintf(a, 99, "%s %g min %s %.1f mm", m.name, wait, plan::word(plan::Stage(best)), t.width_mm);
            printf("%s cell %g at %.1f in %.1f out %.1f\n", a, cell_m, t.at_mm, t.inside_L, t.outside_L);
            sheet.add(run.sheet(), {a});
        }
        sheet.write();
    }
}
#include "water/contact_line.h"
TEST_CASE("zz sat", "[behaviour][rehearsal]") {
    for (bool both : {false, true}) {
    plan::Plan p = wetted(0.3, 0.2);
    if (both) std::get<plan::Wet>(p.steps[0].act).side = plan::Side::both, std::get<plan::Wet>(p.steps[0].act).water_kg_m2 = 0.4;
    rehearsal::Rehearsal r(p, {.cell_m = 1e-3, .until_s = 7200});
    double next = 0;
    while (r.step()) if (r.sheet().time_s >= next) {
        const auto& s = r.sheet(); double f=0,b=0,h=0,sat=0; int n=0,open=0,creep=0,wet=0; for (int j=2;j<s.geometry.ny-2;++j) for (int i=2;i<s.geometry.nx-2;++i) { double q=water::free_saturation(s.paper, s.front_kg_m2(i,j)); f+=s.front_kg_m2(i,j); b+=s.back_kg_m2(i,j); h+=s.film_m(i,j); sat+=q; ++n; open += q>0.85; creep += q>0.5; wet += s.film_m(i,j)>1e-6; }
        printf("both %d %5.1f min film %.1f um front %.3f back %.3f sat %.2f open %.2f creep %.2f filmshare %.2f\n", both, s.time_s/60, h/n*1e6, f/n, b/n, sat/n, double(open)/n, double(creep)/n, double(wet)/n);
        next += s.time_s < 1500 ? 120 : 600;
    }
    printf("capacity half %.3f bound %.3f\n", sheet::half_capacity_kg_m2(p.paper), sheet::half_equilibrium_kg_m2(p.paper,1));
    }
}
