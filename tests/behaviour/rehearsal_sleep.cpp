// Tiles in which nothing happens sleep (sheet/wake.cpp), and a pigment is not looked for where it never was: that saves time
// and must change no pixel. Each plan is played twice, with sleepers and with all awake, and the dried sheets are compared.
//
// Bound: no cell of the dried sheet may differ by one of the 255 steps of its picture, 0.39 L*. The two are not the same to
// the last bit, since the solver's coarse levels reach over other cells, and what it leaves over, within its tolerance,
// differs. A few sheets answer to that: a bead that runs or hangs, a front that opens a cell one step earlier. They answer as
// much to air that is moister by a millionth, and by that they are known: where this alone moves a cell by a step, sleep may
// too, but the sheet in the mean by less than 0.3 L*, a tenth of what an eye tells at arm's length (3 L*, judge/edges.h).
#include <catch2/catch.hpp>
#include <fmt/core.h>

#include <set>

#include "plan/lesson.h"
#include "plan/read_plan.h"
#include "support/rehearsal_scene.h"

using namespace tidemark;

namespace {

constexpr double cell_m = 2e-3, a_step_of_the_picture = 100.0 / 255, unseen_mean = 0.3;

const std::filesystem::path presets = TIDEMARK_PRESETS_DIR;

struct Played {
    grid::Field<float> lstar;
    double end_s, cell_steps;
};

Played played(const plan::Plan& plan, bool sleep) {
    rehearsal::Rehearsal run(plan, {.cell_m = cell_m, .sleep = sleep});
    while (run.step()) {}
    return {sheet::look(run.sheet(), sheet::LookAs::dried).lstar, run.record().end_s, run.cost().cell_steps};
}

struct Differ {
    double largest = 0, mean = 0, share_seen = 0; ///< L*; of the cells, how many by more than a step of the picture
};

Differ compared(const Played& a, const Played& b) {
    Differ d;
    for (int j = 0; j < a.lstar.ny(); ++j)
        for (int i = 0; i < a.lstar.nx(); ++i) {
            const double apart = std::abs(a.lstar(i, j) - b.lstar(i, j));
            d.largest = std::max(d.largest, apart);
            d.mean += apart, d.share_seen += apart > a_step_of_the_picture;
        }
    const double cells = static_cast<double>(a.lstar.nx()) * a.lstar.ny();
    d.mean /= cells, d.share_seen /= cells;
    return d;
}

std::string told(const Differ& d) {
    return fmt::format("{:.4f} L* at most, {:.5f} in the mean, {:.3f} % of the cells by a step", d.largest, d.mean, 100 * d.share_seen);
}

plan::Plan plan_of(const std::filesystem::path& file) { return plan::read_plan(file, materials::Presets::read(presets)); }

std::set<std::filesystem::path> all_plans() {
    std::set<std::filesystem::path> plans;
    for (const auto& entry : std::filesystem::directory_iterator(presets / "plans"))
        if (std::filesystem::exists(entry.path() / "plan.toml")) plans.insert(entry.path() / "plan.toml");
    for (const plan::Lesson& lesson : plan::read_lessons(presets / "lessons"))
        for (const plan::LessonSheet& sheet : lesson.sheets) plans.insert(sheet.plan);
    return plans;
}

} // namespace

TEST_CASE("sleeping tiles change no pixel: three lessons", "[behaviour][rehearsal]") {
    for (const char* name : {"glaze", "edges", "tidemark"}) {
        const plan::Plan plan = plan_of(presets / "lessons" / name / "plan.toml");
        const Played asleep = played(plan, true), awake = played(plan, false);
        INFO(name << ": " << told(compared(asleep, awake)));
        CHECK(awake.cell_steps > 1.2 * asleep.cell_steps); // some did sleep
        CHECK(compared(asleep, awake).largest < a_step_of_the_picture);
    }
}

// A minute or two, the orchard for the most part. To see what it prints: rehearsal_test "sleeping tiles*every plan*"
TEST_CASE("sleeping tiles change no pixel: every plan and lesson", "[behaviour][rehearsal][long]") {
    const auto plans = all_plans();
    REQUIRE(plans.size() >= 13);
    double largest = 0;
    int sensitive = 0;
    for (const auto& file : plans) {
        plan::Plan plan = plan_of(file);
        const Played asleep = played(plan, true), awake = played(plan, false);
        plan.room.humidity *= 1 + 1e-6;
        const Differ sleep = compared(asleep, awake), air = compared(asleep, played(plan, true));
        const std::string line = fmt::format("{}: all awake, {:.2f} times the cells: {}; dry {:.0f} s apart; air moister by a millionth: {}",
                                             std::filesystem::relative(file, presets).string(), awake.cell_steps / asleep.cell_steps,
                                             told(sleep), std::abs(awake.end_s - asleep.end_s), told(air));
        fmt::print("{}\n", line);
        std::fflush(stdout);
        INFO(line);
        if (air.largest < a_step_of_the_picture) {
            largest = std::max(largest, sleep.largest);
            CHECK(sleep.largest < a_step_of_the_picture);
        } else {
            ++sensitive;
            CHECK(sleep.mean < unseen_mean);
        }
    }
    fmt::print("the largest difference, {} sheets apart that answer to the air: {:.4f} L*; allowed {:.2f}\n", sensitive, largest,
               a_step_of_the_picture);
    CHECK(sensitive <= 4);
}
