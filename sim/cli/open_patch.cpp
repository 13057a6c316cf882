#include "cli/open_patch.h"

#include "cli/sheet_options.h"

namespace tidemark::cli {

rehearsal::OpenPatch open_patch(const materials::Presets& presets, const std::string& paper, const std::string& room,
                                const std::string& pigment, const std::string& mark) {
    const auto found = [&](const char* what, const auto* preset, const std::string& id) -> const auto& {
        if (!preset) refuse(mark + what, id, "an id of the presets, as the README lists them");
        return *preset;
    };
    rehearsal::OpenPatch patch;
    patch.paper = found("paper", presets.paper(paper), paper);
    patch.room = found("room", presets.room(room), room);
    patch.pigment = found("pigment", presets.pigment(pigment), pigment);
    return patch;
}

} // namespace tidemark::cli
