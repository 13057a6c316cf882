// What it costs to keep a moment of a rehearsal in a file, to go on from it, and to fork it in memory: a quarter sheet at 0.5 mm, four pigments, wet all
// over, a charge half done.
#include <omp.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include "grid/calm_threads.h"
#include "grid/files.h"
#include "quarter_sheet.h"
#include "rehearsal/kept.h"
#include "timing.h"

TIDEMARK_BRISK_THREADS

using namespace tidemark;

namespace {

plan::Plan wet_quarter_sheet() {
    const auto presets = materials::Presets::read(grid::presets_folder());
    plan::Plan p = bench::sheet_to_paint(presets, bench::quarter_width_m);
    for (const char* id : {"PY150", "PR101"}) p.pigments.push_back(*presets.pigment(id));
    p.mixes.push_back({.name = "sun", .pigments = {{2, 0.010}, {3, 0.004}}, .gum_mass_fraction = 0.008});
    p.steps.push_back({.name = "wet", .line = 1, .start = plan::AtTime{0}, .act = plan::Wet{.water_kg_m2 = 0.1, .pace_m2_s = 400e-4}});
    p.steps.push_back({.name = "wash", .line = 2, .start = plan::AfterStep{0, 0}, .act = plan::Wash{.mix = bench::sky, .pace_m2_s = 400e-4}});
    p.steps.push_back({.name = "drops", .line = 3, .start = plan::AfterStep{1, 0},
                       .act = plan::Charge{.mix = 2, .count = 800, .seconds_per_drop = 0.05}});
    return p;
}

} // namespace

int main(int argc, char** argv) {
    omp_set_num_threads(argc > 1 ? std::stoi(argv[1]) : omp_get_num_procs());
    rehearsal::Rehearsal run(wet_quarter_sheet(), {.cell_m = 0.5e-3});
    while (run.time_s() < 30) run.step();
    std::vector<std::uint8_t> bytes;
    const double keep_s = bench::best_s(3, [&] { bytes = rehearsal::kept_bytes(run, "plan.toml"); });
    const auto file = std::filesystem::temp_directory_path() / "tidemark-bench.moment";
    std::ofstream(file, std::ios::binary).write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    const double go_on_s = bench::best_s(3, [&] { rehearsal::KeptMoment(file).go_on(run.plan(), 60); });
    std::filesystem::remove(file);
    const double fork_s = bench::best_s(3, [&] { const rehearsal::Rehearsal other(run); });
    std::puts("threads,keep_s,MB,go_on_s,fork_s");
    std::printf("%d,%.3f,%.1f,%.3f,%.4f\n", omp_get_max_threads(), keep_s, static_cast<double>(bytes.size()) * 1e-6, go_on_s, fork_s);
}
