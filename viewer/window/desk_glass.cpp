// The glass: a slip of paper beside the pointer, in a painter's words first and numbers second.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

void Desk::draw_glass(Ui& ui, const Rect& mat) {
    if (!glass_)
        return;
    const UnderGlass& g = *glass_;
    const float em = ui.em, line = 1.2F * em;
    // Where letters are large beside the sheet: words, and values in a line; the numbers are for more room.
    const bool tight = 17 * em > 0.5F * mat.width() || 14 * em > 0.7F * mat.height();
    const float pad = (tight ? 0.5F : 0.8F) * em;
    float width = 17 * em;
    std::vector<std::pair<std::string, std::string>> rows;
    rows.emplace_back("value when dry", fmt::format("L* {:.0f}", g.lstar));
    if (g.reference_lstar >= 0)
        rows.emplace_back("the reference", fmt::format("L* {:.0f}", g.reference_lstar));
    rows.emplace_back("film of water", g.film_um >= 0.5 ? fmt::format("{:.0f} µm", g.film_um) : "none");
    rows.emplace_back("water in the paper", fmt::format("{:.0f} % of what it holds", 100 * g.moisture_share));
    for (const auto& [id, load] : g.pigments_g_m2)
        rows.emplace_back(id, fmt::format("{:.2g} g/m²", load));
    std::string where = g.areas.empty() ? "" : g.areas.front();
    std::string edge_words;
    if (!g.edge.empty()) {
        edge_words = fmt::format("{} edge{}, {}", g.edge, g.edge_is_draft ? " (draft)" : "", g.edge_between);
        if (std::isfinite(g.edge_width_mm))
            rows.insert(rows.begin(), {"the edge is wide", width_text(g.edge_width_mm)});
        if (tight)
            edge_words = fmt::format("{} edge", g.edge) + (std::isfinite(g.edge_width_mm) ? ", " + width_text(g.edge_width_mm) : "");
    }
    if (tight) {
        rows = {{fmt::format("L* {:.0f} when dry", g.lstar), ""}};
        if (g.reference_lstar >= 0)
            rows.push_back({fmt::format("L* {:.0f} wanted", g.reference_lstar), ""});
        if (g.film_um >= 0.5)
            rows.push_back({fmt::format("{:.0f} µm of water", g.film_um), ""});
    }
    if (tight) { // no wider than what it says
        width = std::max({text_width(ui, g.words, ui.strong), text_width(ui, where), text_width(ui, edge_words)});
        for (const auto& row : rows)
            width = std::max(width, text_width(ui, row.first, ui.small));
        width = std::min(width + 2 * pad + 2, 0.46F * mat.width());
    }
    float tall = 2 * pad + wrapped_height(ui, width - 2 * pad, g.words, ui.strong) + 0.3F * em +
                 line * static_cast<float>(rows.size()) + 0.3F * em;
    if (!where.empty())
        tall += 1.35F * em;
    if (!edge_words.empty())
        tall += wrapped_height(ui, width - 2 * pad, edge_words) + 0.3F * em;
    // Beside the pointer, on the side where there is room.
    ImVec2 at = ImGui::GetIO().MousePos;
    if (mark.on())
        view.px(*mark.at(), view.pane(), at.x, at.y);
    float x = at.x + 1.4F * em, y = at.y + 1.2F * em;
    if (x + width > mat.x1 - 0.5F * em)
        x = std::max(mat.x0, at.x - width - 1.2F * em);
    if (y + tall > mat.y1 - 0.5F * em)
        y = std::max(mat.y0 + 0.5F * em, at.y - tall - 1.2F * em);
    x = std::clamp(x, mat.x0, std::max(mat.x0, mat.x1 - width)); // on the sheet's mat, never over the minutes
    y = std::clamp(y, mat.y0, std::max(mat.y0, mat.y1 - tall));
    const Rect slip_of{std::floor(x), std::floor(y), std::floor(x + width), std::floor(y + tall)};
    fill(ui, slip_of, ui.theme.slip);
    frame(ui, slip_of, ui.theme.quiet);
    x = slip_of.x0 + pad, y = slip_of.y0 + pad;
    const float room = width - 2 * pad;
    y += write_wrapped(ui, x, y, room, ui.theme.ink, g.words, ui.strong) + 0.3F * em;
    if (!where.empty()) {
        write_within(ui, x, y, room, ui.theme.quiet, where);
        y += 1.35F * em;
    }
    if (!edge_words.empty())
        y += write_wrapped(ui, x, y, room, ui.theme.ink, edge_words) + 0.3F * em;
    for (const auto& [label, value] : rows) {
        write(ui, x, y, value.empty() ? ui.theme.ink : ui.theme.quiet, label, ui.small);
        write_right(ui, x + room, y, ui.theme.ink, value, ui.small);
        y += line;
    }
}

} // namespace tidemark::viewer
