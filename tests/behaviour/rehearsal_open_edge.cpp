// How long the edge of a wash can be left: the patch that is played for it, and laps laid on either side of its answer.
#include <catch2/catch.hpp>

#include "rehearsal/open_time.h"
#include "support/small_plan.h"

#include <fmt/core.h>

using namespace tidemark;
using rehearsal::lap_lstar;
using rehearsal::open_time;
using rehearsal::OpenPatch;
using rehearsal::OpenTime;

namespace {

constexpr double dampened_kg_m2 = 0.15; // as a plan's wet brings when it says nothing else

OpenPatch patch(const char* room, double wetted_kg_m2) {
    static const auto presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    OpenPatch p;
    p.paper = *presets.paper("cold-pressed-300");
    p.room = *presets.room(room);
    p.pigment = *presets.pigment("PB15:3");
    p.wetted_kg_m2 = wetted_kg_m2;
    return p;
}

} // namespace

TEST_CASE("an edge can be left longer in humid air than in the sun, and longer on dampened than on dry paper",
          "[behaviour][rehearsal]") {
    std::vector<OpenTime> dry, damp;
    std::string table = "room: seconds until the edge has no sheen, no film, and until a second wash leaves a mark\n";
    for (const char* room : {"humid-summer", "temperate-studio", "outdoors-sun"}) { // by what the air takes
        dry.push_back(open_time(patch(room, 0)));
        damp.push_back(open_time(patch(room, dampened_kg_m2)));
        table += fmt::format("{:17} dry {:4.0f} {:4.0f} {:4.0f}  dampened {:4.0f} {:4.0f} {:4.0f}\n", room, dry.back().sheen_s,
                             dry.back().film_s, dry.back().joins_s, damp.back().sheen_s, damp.back().film_s,
                             damp.back().joins_s);
    }
    fmt::print("{}", table);
    INFO(table);
    for (std::size_t k = 0; k < dry.size(); ++k) {
        for (const OpenTime& o : {dry[k], damp[k]}) {
            CHECK(o.sheen_s > 0);
            CHECK(o.film_s > o.sheen_s);
            CHECK(o.joins_s <= o.film_s);
        }
        CHECK(damp[k].film_s > dry[k].film_s);
        CHECK(damp[k].joins_s > 2 * dry[k].joins_s);
        if (k == 0) continue;
        CHECK(dry[k].film_s < dry[k - 1].film_s);
        CHECK(dry[k].joins_s < dry[k - 1].joins_s);
        CHECK(damp[k].sheen_s < damp[k - 1].sheen_s);
        CHECK(damp[k].film_s < damp[k - 1].film_s);
        CHECK(damp[k].joins_s < damp[k - 1].joins_s);
    }
    // As a ring led round until it closes has it (rehearsal_lap.cpp): on dry paper a quarter of a minute leaves no mark
    // and four minutes do; on dampened paper four minutes leave none.
    CHECK(dry[1].joins_s > 15);
    CHECK(dry[1].joins_s < 240);
    CHECK(damp[1].joins_s > 240);
}

TEST_CASE("a wash laid within the open time joins, one laid well after it stands against the first as a lap",
          "[behaviour][rehearsal]") {
    for (const double wetted : {0.0, dampened_kg_m2})
        for (const char* room : {"temperate-studio", "outdoors-sun"}) {
            const OpenPatch p = patch(room, wetted);
            const double joins_s = open_time(p).joins_s;
            const double in_time = lap_lstar(p, 0.8 * joins_s), late = lap_lstar(p, 1.6 * joins_s);
            INFO(room << ", wetted " << wetted << ": joins for " << joins_s << " s; " << in_time << " L*, late " << late);
            CHECK(in_time < p.mark_lstar);
            CHECK(late > p.mark_lstar);
        }
}

TEST_CASE("a deeper film stays open longer", "[behaviour][rehearsal]") {
    OpenPatch thin = patch("temperate-studio", 0), deep = thin;
    thin.film_m = 80e-6, deep.film_m = 200e-6;
    const OpenTime a = open_time(thin), b = open_time(deep);
    CHECK(a.film_s < b.film_s);
    CHECK(a.joins_s < b.joins_s);
}
