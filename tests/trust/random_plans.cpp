/// Random valid plans, played; what must hold of each (tests/trust/README is DEVELOPERS.md, "Trust").
///
///   random_plans --seed 1 --plans 1000          plan k is made of seed + k: one alone again with --seed N --plans 1
///
/// Of every plan: the ledger closes to 1e-6 at each recorded moment (the rehearsal throws if not, and it is looked at here),
/// nothing is negative or no number, it dries, and one thread and two give the same bytes. Of even-handed ones
/// (random_plan.h): the mirrored plan on mirrored paper gives the mirrored sheet, and the turned one the turned. Not to the
/// last bit, for the film's solver goes over its cells in red and black from the top left and leaves up to 2 µm unsolved, and
/// what is near a threshold (a contact line that holds or gives way) falls to either side: bounds in symmetry.h.
#include <omp.h>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <atomic>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <mutex>
#include <optional>
#include <thread>

#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/rows.h"
#include "plan/read_plan.h"
#include "rehearsal/rehearsal.h"
#include "sheet/ledger.h"
#include "trust/random_plan.h"
#include "trust/sound.h"
#include "trust/symmetry.h"

TIDEMARK_BRISK_THREADS

namespace {

using namespace tidemark;
using Clock = std::chrono::steady_clock;

struct Wishes {
    std::uint64_t seed = 1;
    int plans = 1000, jobs = 0, steps_by_two = 24, only_steps = 0;
    std::string write;
    bool verbose = false;
};

constexpr double longest_s = 72 * 3600; // on both faces of a heavy sheet in a humid room: two days

rehearsal::Rehearsal of(const plan::Plan& p, double cell_mm) { return {p, {.cell_m = 1e-3 * cell_mm, .check_every_s = 30, .longest_s = longest_s}}; }

/// What is found of one plan. `fault` empty: none.
struct Played {
    std::string fault;
    long steps = 0;
    std::uint64_t after_some = 0; ///< the sheet's bytes after steps_by_two steps
    std::optional<trust::Asymmetry> mirror, turn;
};

/// To its end, on the calling thread alone.
std::string play(rehearsal::Rehearsal& run, Played* note, const Wishes& w) {
    constexpr int look_every = 16;
    const int steps_by_two = w.steps_by_two;
    long n = 0;
    std::string fault;
    for (bool more = true; more && fault.empty();) {
        more = run.step(), ++n;
        more = more && n != w.only_steps;
        if (note && n == steps_by_two) note->after_some = trust::fingerprint(run.sheet());
        if (n % look_every == 0 || !more) fault = trust::unsound(run.sheet());
        if (!fault.empty()) fault += fmt::format(" at {:.1f} s", run.time_s());
    }
    if (note) {
        note->steps = n;
        if (n < steps_by_two) note->after_some = trust::fingerprint(run.sheet());
    }
    if (!fault.empty()) return fault;
    if (w.only_steps == 0 && !run.record().dried) return fmt::format("not dry after {:.0f} h", run.time_s() / 3600);
    for (const auto& line : run.record().ledger)
        if (!(line.water_closure <= sheet::ledger_tolerance && line.pigment_closure <= sheet::ledger_tolerance))
            return fmt::format("the ledger at {:.0f} s: water {:.2g}, pigment {:.2g}", line.time_s, line.water_closure, line.pigment_closure);
    return {};
}

Played played(std::uint64_t seed, const Wishes& w, const materials::Presets& presets) {
    Played out;
    try {
        const trust::RandomPlan random = trust::random_plan(seed, presets);
        if (!w.write.empty()) {
            std::filesystem::create_directories(w.write);
            std::ofstream(std::filesystem::path(w.write) / fmt::format("plan-{}.toml", seed)) << random.text;
        }
        const plan::Plan plan = plan::read_plan_text(random.text, fmt::format("plan-{}.toml", seed), presets);
        rehearsal::Rehearsal run = of(plan, random.cell_mm);
        out.fault = play(run, &out, w);
        if (!out.fault.empty() || !random.even_handed || w.only_steps > 0) return out;
        for (const trust::Way way : {trust::Way::mirror, trust::Way::turn}) {
            rehearsal::Rehearsal other = of(trust::seen(plan, way), random.cell_mm);
            trust::exchange_paper(other, run.sheet(), way);
            out.fault = play(other, nullptr, w);
            if (!out.fault.empty()) return out.fault = (way == trust::Way::mirror ? "mirrored: " : "turned: ") + out.fault, out;
            (way == trust::Way::mirror ? out.mirror : out.turn) = trust::asymmetry(run.sheet(), other.sheet(), way);
        }
    } catch (const std::exception& e) {
        out.fault = e.what();
    }
    return out;
}

/// The first steps with two threads, however small the loops are.
std::uint64_t after_some_by_two(std::uint64_t seed, const Wishes& w, const materials::Presets& presets) {
    const trust::RandomPlan random = trust::random_plan(seed, presets);
    rehearsal::Rehearsal run = of(plan::read_plan_text(random.text, "plan.toml", presets), random.cell_mm);
    for (int n = 0; n < w.steps_by_two && run.step(); ++n) {}
    return trust::fingerprint(run.sheet());
}

int check(const Wishes& w) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    fmt::print("random plans: seed {}, {} plans\n", w.seed, w.plans);
    std::fflush(stdout);
    std::vector<Played> all(static_cast<std::size_t>(w.plans));
    std::atomic<int> next = 0;
    const auto begun = Clock::now();
    const int jobs = w.jobs > 0 ? w.jobs : std::max(1, omp_get_num_procs());
    std::vector<std::thread> workers;
    for (int k = 0; k < jobs; ++k)
        workers.emplace_back([&] {
            omp_set_num_threads(1);
            for (int n; (n = next++) < w.plans;) {
                const auto from = Clock::now();
                all[n] = played(w.seed + n, w, presets);
                if (w.verbose)
                    fmt::print("{} {:.0f} ms {} steps {} {} {}\n", w.seed + n, std::chrono::duration<double, std::milli>(Clock::now() - from).count(),
                               all[n].steps, all[n].mirror ? all[n].mirror->text() : "-", all[n].turn ? all[n].turn->text() : "-", all[n].fault);
            }
        });
    for (auto& t : workers) t.join();
    const double alone_s = std::chrono::duration<double>(Clock::now() - begun).count();
    grid::parallel_from_cells = 900; // all loops over the sheet; those over the solver's coarse levels are the same code
    omp_set_dynamic(0), omp_set_num_threads(2);
    for (int n = 0; n < w.plans; ++n)
        if (all[n].fault.empty() && after_some_by_two(w.seed + n, w, presets) != all[n].after_some) all[n].fault = "other bytes with two threads than with one";
    int wrong = 0;
    long steps = 0;
    trust::Symmetries mirrors, turns;
    for (int n = 0; n < w.plans; ++n) {
        Played& p = all[n];
        steps += p.steps;
        if (p.fault.empty() && p.mirror) p.fault = mirrors.add("mirrored", *p.mirror);
        if (p.fault.empty() && p.turn) p.fault = turns.add("turned", *p.turn);
        if (p.fault.empty()) continue;
        fmt::print("plan of seed {}: {}\n", w.seed + n, p.fault);
        ++wrong;
    }
    for (const auto& [name, s] : {std::pair<const char*, const trust::Symmetries&>{"mirrored", mirrors}, {"turned", turns}}) {
        fmt::print("{}: {}\n", name, s.text());
        if (const std::string fault = s.fault(); !fault.empty()) fmt::print("{}: {}\n", name, fault), ++wrong;
    }
    fmt::print("plans: {} played to the end in {} steps, {} mirrored, {} turned, {} again with two threads, {} wrong ({:.0f} + {:.0f} s)\n", w.plans, steps,
               mirrors.count(), turns.count(), w.plans, wrong, alone_s, std::chrono::duration<double>(Clock::now() - begun).count() - alone_s);
    return wrong ? 1 : 0;
}

} // namespace

int main(int argc, char** argv) {
    CLI::App options{"random valid plans, and what must hold of each"};
    Wishes w;
    options.add_option("--seed", w.seed, "of the first plan; the next has the next")->capture_default_str();
    options.add_option("--plans", w.plans, "how many")->capture_default_str()->check(CLI::Range(1, 1000000));
    options.add_option("--jobs", w.jobs, "plans at a time (default: one a core)")->check(CLI::Range(1, 64));
    options.add_option("--steps-by-two", w.steps_by_two, "steps that are taken again with two threads")->capture_default_str();
    options.add_option("--only-steps", w.only_steps, "play only the first steps of each plan, and none mirrored: for slow builds")->capture_default_str();
    options.add_option("--write", w.write, "folder for the plans, to rehearse one by hand");
    options.add_flag("--verbose", w.verbose, "a line a plan");
    CLI11_PARSE(options, argc, argv);
    try {
        return check(w);
    } catch (const std::exception& e) {
        fmt::print(stderr, "{}\n", e.what());
        return 3;
    }
}
