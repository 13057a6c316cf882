// Plans from masses: drafted, or of the painter's own acts.
#include "grid/files.h"
#include "reference/draft.h"
#include "rehearsal/open_time.h"
#include "viewer/studio/making_detail.h"

#include <map>

namespace tidemark::viewer {

void Making::Inside::write(const std::filesystem::path& folder) {
    std::error_code none;
    if (std::filesystem::exists(folder / "plan.toml", none)) throw grid::BadInput((folder / "plan.toml").string(), "a plan is here already", "another folder");
    if (!found) throw grid::BadInput(picture_file.string(), "its masses are not known yet", "a moment later");
    const Choices& c = history[at];
    reference::Looking how = looking(c);
    how.edits = c.edits;
    if (c.painted) how.masks = reference::group_masks(*c.painted), how.made_from = *c.painted;
    const auto presets = materials::Presets::read(grid::presets_folder());
    rehearsal::OpenPatch patch; // as tidemark draft has it
    patch.paper = *presets.paper("cold-pressed-300"), patch.room = *presets.room("temperate-studio"), patch.pigment = *presets.pigment("PB29");
    std::map<double, double> played;
    const auto open_for = [&](double film_um) {
        if (const auto before = played.find(film_um); before != played.end()) return before->second;
        {
            const std::lock_guard lock(mutex);
            writing = std::min(0.9, writing + 0.15);
        }
        if (news) news();
        patch.film_m = film_um * 1e-6;
        return played[film_um] = rehearsal::open_time(patch).joins_s;
    };
    const reference::Draft draft = reference::draft_plan(picture, *found, how, picture_file.filename().string(), open_for);
    grid::OutputFolder out(folder);
    reference::write_draft(draft, out);
    out.commit();
    const std::lock_guard lock(mutex);
    written = folder / "plan.toml";
}

void Making::Inside::begin_acts(const materials::Presets& presets) {
    if (!found) throw grid::BadInput(picture_file.string(), "its masses are not known yet", "a moment later");
    auto made = std::make_shared<OwnPlan>(picture, picture_file.filename().string(), *found, presets);
    const std::lock_guard lock(mutex);
    own = std::move(made);
}

void Making::Inside::write_acts(const std::filesystem::path& folder) {
    if (!own) throw grid::BadInput(picture_file.string(), "there is no act yet", "at least one");
    own->write(folder);
    const std::lock_guard lock(mutex);
    written = folder / "plan.toml";
}

} // namespace tidemark::viewer
