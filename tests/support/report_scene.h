/// A small painted sheet: a dark disc on the left half's light wash, paper on the right, with a reference and a
/// record.
#pragma once
#include "materials/presets.h"
#include "report/write_outputs.h"
#include "support/temporary_folder.h"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>

namespace report_scene {

using namespace tidemark;

struct Scene {
    plan::Plan plan;
    sheet::SheetState sheet;
    sheet::Record record;
    report::Inputs inputs(bool dry = true) const { return {plan, sheet, record, dry}; }
};

inline void add_area(plan::Plan& p, const std::string& name, int nx, int ny, bool (*inside)(double, double)) {
    plan::Area a;
    a.name = name, a.file = name + ".png";
    a.mask.width = nx, a.mask.height = ny;
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            a.mask.value.push_back(inside(0.5 * (i + 0.5), 0.5 * (j + 0.5)) ? 1.0f : 0.0f);
    p.areas.push_back(std::move(a));
}

inline void add_step(Scene& s, const std::string& name, plan::Act act, double start_s) {
    plan::Step step;
    step.name = name, step.act = std::move(act);
    s.plan.steps.push_back(std::move(step));
    sheet::ActRecord done;
    done.step = static_cast<int>(s.plan.steps.size()) - 1;
    done.start_s = start_s, done.end_s = start_s + 20, done.ended = true;
    done.water_kg = 2e-4, done.pigment_kg = {2e-6, 1e-6};
    s.record.acts.push_back(std::move(done));
}

inline bool left(double x, double) { return x < 20; }
inline bool disc(double x, double y) { return std::hypot(x - 10, y - 15) < 6; }

inline Scene make_scene() {
    const auto presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    Scene s;
    s.plan.width_m = 40e-3, s.plan.height_m = 30e-3;
    s.plan.pigments = {*presets.pigment("PB29"), *presets.pigment("PY150")};
    s.plan.mixes = {{"sky, pale", {{0, 0.01}, {1, 0.005}}, 0.01}};
    add_area(s.plan, "left", 80, 60, left), add_area(s.plan, "disc", 80, 60, disc);
    s.sheet = sheet::SheetState::make(40e-3, 30e-3, 0.5e-3, presets.papers.front(), presets.rooms.front(),
                                      sheet::BoardKind::sealed, s.plan.pigments, 3);
    s.sheet.time_s = 1800;
    for (int j = 0; j < 60; ++j)
        for (int i = 0; i < 40; ++i)
            s.sheet.pigments[0].bound(i, j) = disc(0.5 * (i + 0.5), 0.5 * (j + 0.5)) ? 8e-3f : 1e-3f;
    plan::Wash wash, dark;
    wash.area = 0, dark.area = 1;
    add_step(s, "light", wash, 0), add_step(s, "dark", dark, 300);
    s.plan.wants = {{9, "disc", "left", plan::EdgeWord::soft}};
    plan::Reference r;
    r.groups = 2;
    r.picture = {160, 120, std::vector<std::uint8_t>(3 * 160 * 120, 235)};
    for (int y = 0; y < 120; ++y)
        for (int x = 0; x < 80; ++x)
            std::fill_n(r.picture.at(x, y), 3, std::uint8_t{110});
    s.plan.reference = std::move(r);
    for (const double minute : {1.0, 10.0, 30.0})
        s.record.stages.push_back(
            {60 * minute, -1, {minute < 5 ? 1.0 : 0.0, 0, minute == 10 ? 1.0 : 0, minute > 20 ? 1.0 : 0}});
    sheet::Ledger flows;
    flows.start_kg = 1e-3, flows.laid_kg = 4e-4, flows.evaporated_kg = 3e-4;
    flows.to_board_kg = 1e-5, flows.run_off_kg = 2e-5, flows.lifted_kg = 3e-5;
    flows.pigment_laid_kg = {4e-6, 2e-6}, flows.pigment_lifted_kg = {0, 0};
    s.record.ledger.push_back({60, flows, 1e-4, 5.2e-4, 4.2e-4, {4e-6, 2e-6}, 0, 3e-9, 2e-8});
    s.record.end_s = 1800, s.record.dried = true;
    s.record.warnings = {"the brush ran dry in \"light\""};
    return s;
}

/// A folder of its own, gone at the end.
struct Folder {
    tests::TemporaryFolder temporary;
    std::filesystem::path path = temporary.path();
    bool has(const std::string& file) const { return std::filesystem::exists(path / file); }
};

} // namespace report_scene
