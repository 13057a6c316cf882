// What the page says of itself, for scripts and tests.
#include <fmt/format.h>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

std::map<std::string, std::string> Desk::state() const {
    std::map<std::string, std::string> s;
    s["opening"] = opening() ? "yes" : "no";
    s["reading again"] = studio.reading_again() ? "yes" : "no";
    if (!is_open())
        return s;
    const Document& document = studio.document();
    s["plan"] = document.file().string();
    s["changed"] = document.changed() ? "yes" : "no";
    s["problems"] = std::to_string(document.problems().size());
    s["can undo"] = document.can_undo() ? "yes" : "no";
    s["can redo"] = document.can_redo() ? "yes" : "no";
    s["what if"] = studio.what_if() ? "yes" : "no";
    s["look"] = look_name(look);
    s["compare"] = word_of(compare);
    s["against"] = against_before() ? "before" : "reference";
    s["difference of"] = sheet_.look != LookKind::difference ? "none" : sheet_.less ? "before" : "reference";
    s["cells"] = sheet_.run ? fmt::format("{:.2g}", 1e3 * sheet_.run->cell_m()) : "none";
    s["cells before"] = against_before() && other_.run ? fmt::format("{:.2g}", 1e3 * other_.run->cell_m()) : "none";
    s["lit edge"] = lit_ >= 0 && lit_ < static_cast<int>(edges_.size()) ? edges_[static_cast<std::size_t>(lit_)].between : "none";
    s["edges"] = edges_shown ? "yes" : "no";
    s["edge rows"] = std::to_string(edges_.size());
    s["edges listed"] = std::to_string(edges_listed());
    s["picture"] = sheet_.pixels.width > 0 ? "yes" : "no";
    s["mark"] = mark.on() ? fmt::format("{:.0f} {:.0f}", mark.at()->x, mark.at()->y) : "none";
    s["acts"] = document.plan() ? std::to_string(document.plan()->steps.size()) : "0";
    s["saving"] = saving_.busy() ? "yes" : "no";
    s["edge"] = edge >= 0 && edge < static_cast<int>(edges_.size()) ? edges_[static_cast<std::size_t>(edge)].between : "none";
    s["minute"] = clock_text(minute_s);
    s["reached"] = clock_text(strip_.reached_s);
    s["playing"] = playing ? "yes" : "no";
    s["pace"] = std::to_string(pace);
    s["px per mm"] = fmt::format("{:.2f}", view.px_per_mm());
    s["middle"] = fmt::format("{:.0f} {:.0f}", view.middle().x, view.middle().y);
    s["curtain"] = fmt::format("{:.2f}", curtain);
    s["glass"] = glass_ ? glass_->words : "none";
    s["glass reference"] = glass_ && glass_->reference_lstar >= 0 ? fmt::format("{:.0f}", glass_->reference_lstar) : "none";
    s["note"] = note;
    const auto plan = document.plan();
    s["act"] = act >= 0 && plan ? plan->steps[static_cast<std::size_t>(act)].name : "none";
    if (const StripAct* a = strip_.act(act))
        s["act begins"] = clock_text(a->start_s);
    const auto is = [](const std::shared_ptr<Run>& run) -> std::string {
        if (!run)
            return "none";
        switch (run->progress().is) {
        case RunProgress::Is::waiting: return "waiting";
        case RunProgress::Is::painting: return "painting";
        case RunProgress::Is::judging: return "judging";
        case RunProgress::Is::finished: return "finished";
        case RunProgress::Is::stopped: return "stopped";
        case RunProgress::Is::failed: return "failed";
        }
        return "";
    };
    s["draft"] = is(studio.draft());
    s["truth"] = is(studio.truth());
    s["slip"] = slip == Slip::save_as ? "save as" : slip == Slip::leaving ? "leaving" : slip == Slip::sheet ? "sheet" : slip == Slip::adding ? "adding" : "none";
    if (slip == Slip::adding)
        form_.tell(s);
    return s;
}

} // namespace tidemark::viewer
