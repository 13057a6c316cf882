// What the viewer finds of itself at its start: settings, recent plans, a copy left by a crash, its text being edited. All of
// it is read leniently: nothing may be thrown.
#include <string>

#include "fuzz/memory_file.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "viewer/studio/document.h"
#include "viewer/studio/recovery.h"
#include "viewer/studio/settings.h"

using namespace tidemark;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t n) {
    static const auto presets = materials::Presets::read(grid::presets_folder());
    static const trust::MemoryFile held;
    static const std::filesystem::path settings = trust::named(held, "viewer.toml"), recent = trust::named(held, "recent.txt"),
                                       copy = trust::named(held, "recovery/1-0.toml");
    held.hold(bytes, n);
    const viewer::Memory memory(settings.parent_path(), recent.parent_path());
    const viewer::Settings s = memory.settings();
    if (s.window_width < 320 || s.text_percent < 80 || s.text_percent > 200 || !(s.cell_mm >= 0.1 && s.cell_mm <= 5)) std::abort();
    memory.recent();
    viewer::Recovery(memory.recovery_folder()).left_over();
    viewer::Document document("plan.toml", std::string(reinterpret_cast<const char*>(bytes), n), presets);
    try {
        document.set("sheet", "seed", "7");
    } catch (const grid::BadInput&) {
    }
    try {
        document.set("sky", "film_um", "120");
    } catch (const grid::BadInput&) {
    }
    return 0;
}
