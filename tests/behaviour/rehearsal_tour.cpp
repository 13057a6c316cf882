// The tour of the acts, as the README shows it: each plan of tests/behaviour/tour is read, played at 1 mm, and looked at
// for what a painter looks for in that act. "Common practice" says what that is, unless a line says more.
#include "grid/units.h"
#include "hand/trial.h"
#include "plan/coverage.h"
#include "plan/read_plan.h"
#include "support/rehearsal_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;

namespace {

constexpr double cell_m = 1e-3;

plan::Plan read(const std::string& name) {
    return plan::read_plan(TIDEMARK_TESTS_DIR "/behaviour/tour/" + name + ".toml",
                           materials::Presets::read(TIDEMARK_PRESETS_DIR));
}

/// A plan of the tour, played; what can be seen of it.
struct Tour {
    plan::Plan plan;
    rehearsal::Rehearsal run;
    sheet::Look look;

    explicit Tour(const std::string& name, double until_s = 0) : Tour(read(name), until_s) {}
    explicit Tour(const plan::Plan& p, double until_s = 0)
        : plan(p), run(scene::played(p, cell_m, until_s)), look(sheet::look(run.sheet(), sheet::LookAs::dried)) {
        for (const auto& line : run.record().ledger) {
            REQUIRE(line.water_closure < 1e-6);
            REQUIRE(line.pigment_closure < 1e-6);
        }
        CHECK(run.record().warnings == std::vector<std::string>{});
        CHECK(run.record().dried == (until_s == 0));
    }
    const sheet::SheetState& sheet() const { return run.sheet(); }
    const sheet::ActRecord& act(int k) const { return run.record().acts.at(k); }
    double paper_L() const { return sheet::dried_lstar(plan.paper, {}); }

    /// see(i, j) in the cells of an area, away from its edge by `inset` cells.
    template <class See> void in(const char* area, int inset, See&& see) const {
        const int nx = sheet().geometry.nx, ny = sheet().geometry.ny;
        const int index = area == std::string("sheet") ? plan::whole_sheet : plan.area_index(area);
        REQUIRE((index >= 0 || area == std::string("sheet")));
        const auto cover = plan::coverage(plan, index, nx, ny);
        const auto covered = [&](int i, int j) {
            return i >= 0 && j >= 0 && i < nx && j < ny && cover(i, j) >= plan::half_covered;
        };
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i) {
                bool within = true;
                for (int dj = -inset; dj <= inset && within; ++dj)
                    for (int di = -inset; di <= inset && within; ++di)
                        within = covered(i + di, j + dj);
                if (within)
                    see(i, j);
            }
    }
    /// Mean lightness in an area, and how far half of its cells are from that.
    double L(const char* area, int inset = 2) const {
        double sum = 0, cells = 0;
        in(area, inset, [&](int i, int j) { sum += look.lstar(i, j), ++cells; });
        return sum / cells;
    }
    double unevenness(const char* area, int inset) const {
        const double mean = L(area, inset);
        std::vector<double> off;
        in(area, inset, [&](int i, int j) { off.push_back(std::abs(look.lstar(i, j) - mean)); });
        std::nth_element(off.begin(), off.begin() + static_cast<std::ptrdiff_t>(off.size() / 2), off.end());
        return off[off.size() / 2];
    }
    /// Mean lightness by column over rows from ... to.
    std::vector<double> across(int from, int to) const {
        std::vector<double> mean(sheet().geometry.nx);
        for (std::size_t i = 0; i < mean.size(); ++i) {
            for (int j = from; j < to; ++j)
                mean[i] += look.lstar(static_cast<int>(i), j);
            mean[i] /= to - from;
        }
        return mean;
    }
    double edge_mm(int from, int to) const { return scene::width_10_90_mm(across(from, to), cell_m); }
    bool wet(int i, int j) const { return sheet().film_m(i, j) > 0; }
    double pigment_kg_m2(int k, int i, int j) const {
        const auto& p = sheet().pigments.at(k);
        return double(p.bound(i, j)) + p.inside(i, j) + p.loose(i, j) + p.afloat_lower(i, j) + p.afloat_upper(i, j);
    }
};

/// Half-way through the first act.
Tour halfway(const std::string& name) {
    const plan::Plan p = read(name);
    return Tour(p, 0.5 * hand::Trial(p, cell_m)(0).seconds);
}

/// From when on, after a moment, an area is damp or drier.
double damp_at_s(const Tour& t, const char* area, double after_s) {
    for (const auto& sample : t.run.record().stages)
        if (sample.time_s > after_s && sample.area == t.plan.area_index(area) &&
            sample.share[2] + sample.share[3] >= 0.8)
            return sample.time_s;
    return -1;
}

} // namespace

TEST_CASE("tour: a wash bleeds into wetted paper and keeps its edge on dry paper", "[behaviour][rehearsal]") {
    const Tour t("01-wet");
    const double on_wet = t.edge_mm(5, 24), on_dry = t.edge_mm(36, 55);
    INFO("edge on wet paper " << on_wet << " mm, on dry " << on_dry << " mm");
    CHECK(on_dry < 2); // the cells of the edge
    CHECK(on_wet > 4);
}

TEST_CASE("tour: a flat wash in rows is begun at the top, dries even, and hard where it ends", "[behaviour][rehearsal]") {
    const Tour half = halfway("02-wash-rows");
    CHECK(half.wet(40, 15));
    CHECK_FALSE(half.wet(40, 45));
    const Tour t("02-wash-rows");
    INFO("L* " << t.L("wall", 4) << ", uneven by " << t.unevenness("wall", 4));
    CHECK(t.L("wall", 4) < t.paper_L() - 15);
    CHECK(t.unevenness("wall", 4) < 3);
    CHECK(t.look.lstar(6, 30) > t.paper_L() - 1); // nothing beyond its edge
}

TEST_CASE("tour: a wash led downhill is begun at the upper end, and leaves no puddle at the lower", "[behaviour][rehearsal]") {
    const Tour half = halfway("03-wash-downhill");
    CHECK(half.wet(5, 10));
    CHECK(half.wet(74, 10));
    CHECK_FALSE(half.wet(40, 50));
    /// Water that stands on the lowest 3 mm just after the hand has gone.
    const auto stands_m = [](plan::Bead bead) {
        plan::Plan p = read("03-wash-downhill");
        std::get<plan::Wash>(p.steps[0].act).bead = bead;
        const Tour t(p, hand::Trial(p, cell_m)(0).seconds + 1);
        double sum = 0;
        for (int i = 0; i < 80; ++i)
            for (int j = 57; j < 60; ++j)
                sum += t.sheet().film_m(i, j);
        return sum / 240;
    };
    const double picked_up = stands_m(plan::Bead::picked_up), left = stands_m(plan::Bead::left);
    INFO("at the low edge " << picked_up * 1e6 << " um, with the bead left " << left * 1e6);
    CHECK(left > 150e-6);
    CHECK(picked_up < 0.8 * left);
}

TEST_CASE("tour: a wash from a point goes along the shape, not across the paper", "[behaviour][rehearsal]") {
    const Tour half = halfway("04-wash-from");
    CHECK(half.wet(17, 20));
    CHECK(half.wet(17, 40));
    CHECK_FALSE(half.wet(63, 10)); // as high up as the start, but at the far end of the way
    const Tour t("04-wash-from");
    CHECK(t.L("ring", 3) < t.paper_L() - 15);
    CHECK(t.look.lstar(40, 20) > t.paper_L() - 1);
}

TEST_CASE("tour: a wash by an order picture is painted where that is dark first", "[behaviour][rehearsal]") {
    const Tour half = halfway("05-wash-order");
    CHECK(half.wet(70, 30));
    CHECK_FALSE(half.wet(10, 30));
}

TEST_CASE("tour: strokes leave paper between them", "[behaviour][rehearsal]") {
    const Tour half = halfway("06-wash-strokes");
    CHECK(half.wet(20, 12));
    CHECK_FALSE(half.wet(20, 50));
    const Tour t("06-wash-strokes");
    CHECK(t.look.lstar(40, 12) < t.paper_L() - 10);
    CHECK(t.look.lstar(40, 21) > t.paper_L() - 1);
    CHECK(t.look.lstar(40, 40) > t.paper_L() - 1);
    CHECK(t.act(0).brush_loads == 1); // it holds enough
}

TEST_CASE("tour: what is charged into a wet wash darkens it and runs beyond where it fell", "[behaviour][rehearsal]") {
    const Tour t("07-charge");
    double inside = 0, all = 0;
    const int blue = 1;
    t.in("sheet", 0, [&](int i, int j) { all += t.pigment_kg_m2(blue, i, j); });
    t.in("shade", 0, [&](int i, int j) { inside += t.pigment_kg_m2(blue, i, j); });
    INFO("L* " << t.L("shade") << " in a wash of " << t.look.lstar(8, 8) << "; beyond the shape " << 1 - inside / all);
    CHECK(t.L("shade") < t.look.lstar(8, 8) - 8);
    CHECK(1 - inside / all > 0.02);
    CHECK(1 - inside / all < 0.5);
}

TEST_CASE("tour: each tool lifts a wash that loses its sheen, only the scrub one that is dry", "[behaviour][rehearsal]") {
    const Tour t("08-lift");
    const double left = t.L("left");
    INFO("left " << left << ", brushed " << t.L("brushed") << ", blotted " << t.L("blotted") << ", sponged "
                 << t.L("sponged") << ", scrubbed " << t.L("scrubbed") << ", brushed dry " << t.L("brushed-dry"));
    for (const char* wet : {"brushed", "blotted", "sponged"})
        CHECK(t.L(wet) > left + 3);
    CHECK(t.L("scrubbed") > left + 3);
    CHECK(t.L("brushed-dry") - left < 0.5 * (t.L("scrubbed") - left));
}

TEST_CASE("tour: spatter leaves single marks in and a little around its area", "[behaviour][rehearsal]") {
    const Tour t("09-spatter");
    int dark = 0, outside = 0, far = 0;
    t.in("sheet", 0, [&](int i, int j) {
        if (t.look.lstar(i, j) > t.paper_L() - 3)
            return;
        const double r = std::hypot((i + 0.5 - 40) / 20, (j + 0.5 - 30) / 15);
        ++dark, outside += r > 1, far += r > 1.3;
    });
    INFO(dark << " cells of 4800 are marked, " << outside << " of them beyond the area, " << far << " far from it");
    CHECK(dark > 20);
    CHECK(dark < 0.3 * 942); // of the cells in the area: most is paper
    CHECK(outside > 0);
    CHECK(far == 0);
}

TEST_CASE("tour: what is sprayed stays open longer", "[behaviour][rehearsal]") {
    const Tour t("10-spray");
    const double sprayed = damp_at_s(t, "left", t.act(1).end_s), not_sprayed = damp_at_s(t, "right", t.act(1).end_s);
    INFO("damp at " << sprayed / 60 << " min where it was sprayed, else at " << not_sprayed / 60);
    CHECK(not_sprayed > t.act(1).end_s + 30); // it was open still
    CHECK(sprayed > not_sprayed + 120);
}

TEST_CASE("tour: a dry brush paints the peaks of the paper alone", "[behaviour][rehearsal]") {
    const Tour t("11-drybrush");
    float lowest_painted = 1, highest_bare = -1;
    int painted = 0, cells = 0;
    t.in("sparkle", 0, [&](int i, int j) {
        const float height = t.sheet().relief_m(i, j);
        const bool dark = t.pigment_kg_m2(0, i, j) > 1e-5;
        (dark ? lowest_painted : highest_bare) =
            dark ? std::min(lowest_painted, height) : std::max(highest_bare, height);
        painted += dark, ++cells;
    });
    INFO("painted " << painted << " of " << cells << ", down to " << lowest_painted * 1e6 << " um; bare up to "
                    << highest_bare * 1e6);
    CHECK(lowest_painted >= highest_bare);
    CHECK(painted == Approx(0.4 * cells).epsilon(0.05));
}

TEST_CASE("tour: an edge is soft where it was softened, and hard where not", "[behaviour][rehearsal]") {
    const Tour t("12-soften");
    const double softened = t.edge_mm(4, 22), left = t.edge_mm(42, 56);
    INFO("softened " << softened << " mm, left " << left << " mm");
    CHECK(left < 2); // the cells of the edge
    CHECK(softened > 2 * left);
}

TEST_CASE("tour: a juicy wash runs to the low edge of a board that is raised", "[behaviour][rehearsal]") {
    const auto low_share = [](const plan::Plan& p) {
        const Tour t(p);
        double low = 0, all = 0;
        t.in("sheet", 0, [&](int i, int j) { all += t.pigment_kg_m2(0, i, j), low += j >= 30 ? t.pigment_kg_m2(0, i, j) : 0; });
        return low / all;
    };
    const plan::Plan raised = read("13-tilt");
    plan::Plan level = raised;
    level.steps.pop_back();
    const double low = low_share(raised), even = low_share(level);
    INFO("of the pigment in the lower half: " << low << ", on a level board " << even);
    CHECK(even == Approx(0.5).margin(0.02));
    CHECK(low > even + 0.1);
}

TEST_CASE("tour: a glaze waits until the wash is dry, and its edge stays hard", "[behaviour][rehearsal]") {
    const Tour t("14-dry");
    CHECK(t.act(1).share_reached >= 0.95);
    CHECK(t.act(2).start_s > 20 * 60);
    INFO("edge " << t.edge_mm(5, 55) << " mm, twice " << t.look.lstar(20, 30) << ", once " << t.look.lstar(70, 30));
    CHECK(t.edge_mm(5, 55) < 2); // the brush loosens some of the wash, which runs to the glaze's edge
    CHECK(t.look.lstar(20, 30) < t.look.lstar(70, 30) - 5);
}

TEST_CASE("tour: warm air dries a sheet several times sooner", "[behaviour][rehearsal]") {
    const plan::Plan warm = read("15-warm-air");
    plan::Plan patient = warm;
    std::get<plan::Dry>(patient.steps[1].act).warm_air = false;
    const double dryer_s = Tour(warm).act(1).end_s, patience_s = Tour(patient).act(1).end_s;
    INFO("with the dryer " << dryer_s / 60 << " min, without " << patience_s / 60);
    CHECK(dryer_s < 0.4 * patience_s);
}

TEST_CASE("tour: a dryer held to one side drives a wet wash before it", "[behaviour][rehearsal]") {
    const plan::Plan blown = read("20-blown");
    plan::Plan moved_about = blown, other_way = blown;
    std::get<plan::Dry>(moved_about.steps[2].act).blows_rad.reset();
    std::get<plan::Dry>(other_way.steps[2].act).blows_rad = grid::rad_from_deg(180);
    const auto middle_mm = [](const plan::Plan& p) { // of the colour, across
        const Tour t(p);
        double moment = 0, mass = 0;
        t.in("sheet", 0, [&](int i, int j) {
            moment += (i + 0.5) * t.pigment_kg_m2(0, i, j), mass += t.pigment_kg_m2(0, i, j);
        });
        return moment / mass;
    };
    const double still = middle_mm(moved_about), right = middle_mm(blown), left = middle_mm(other_way);
    INFO("middle of the colour at " << left << ", " << still << ", " << right << " mm");
    CHECK(right > still + 3);
    CHECK(left < still - 3);
}

TEST_CASE("tour: what was reserved is paper, with a hard edge", "[behaviour][rehearsal]") {
    const Tour t("16-reserve");
    CHECK(t.L("light", 1) == Approx(t.paper_L()).margin(0.5));
    CHECK(t.look.lstar(5, 30) < t.paper_L() - 20);
    CHECK(t.look.lstar(22, 30) < t.paper_L() - 20); // 3 mm beyond the edge
}

TEST_CASE("tour: a light uncovered before the glaze has the glaze's tone, one after it is paper", "[behaviour][rehearsal]") {
    const Tour t("17-uncover");
    const double first = t.L("first"), second = t.L("second"), around = t.look.lstar(40, 30);
    INFO("first " << first << ", second " << second << ", around them " << around);
    CHECK(second == Approx(t.paper_L()).margin(0.5));
    CHECK(first < second - 8);
    CHECK(around < first - 5);
}

TEST_CASE("tour: body colour sets a light on a dark and stays where it is put", "[behaviour][rehearsal]") {
    const Tour t("18-body");
    double white = 0, all = 0;
    t.in("sheet", 0, [&](int i, int j) { all += t.pigment_kg_m2(1, i, j); });
    t.in("lights", 0, [&](int i, int j) { white += t.pigment_kg_m2(1, i, j); });
    INFO("L* " << t.L("lights", 1) << " on " << t.look.lstar(5, 5) << "; in its place " << white / all);
    CHECK(t.L("lights", 1) > t.look.lstar(5, 5) + 20);
    CHECK(white > 0.85 * all); // the rest is in cells that the line covers less than half
}

TEST_CASE("tour: the hills wait for a damp sky", "[behaviour][rehearsal]") {
    const Tour t("19-when");
    CHECK(t.act(1).waited_for == "sky damp");
    CHECK(t.act(1).share_reached >= 0.8);
    CHECK(t.act(1).waited_s > 120);
    CHECK_FALSE(t.act(1).gave_up);
    /// Of the grey, what went up into the sky by more than 1 mm.
    const auto bled = [](const plan::Plan& p) {
        const Tour s(p);
        double sky = 0, all = 0;
        s.in("sheet", 0, [&](int i, int j) { all += s.pigment_kg_m2(1, i, j); });
        s.in("sky", 1, [&](int i, int j) { sky += s.pigment_kg_m2(1, i, j); });
        return sky / all;
    };
    plan::Plan at_once = t.plan;
    at_once.steps[1].start = plan::AfterStep{0, 0};
    const double damp = bled(t.plan), wet = bled(at_once);
    INFO("bled into the sky: damp " << damp << ", at once " << wet);
    CHECK(wet > 3 * damp);
}
