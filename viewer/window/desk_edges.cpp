// Edges drawn along their boundaries, each word in its own line.
#include <algorithm>
#include <cmath>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

void Desk::draw_edges(const Ui& ui, const Rect& pane) {
    const Rect r = mat_area_;
    // No wider than a millimetre and a half of the sheet, so that a small sheet is not covered.
    const float thin = std::clamp(static_cast<float>(0.6 * view.px_per_mm()), 0.8F, std::max(1.5F, ui.em * 0.11F));
    for (std::size_t k = 0; k < edges_.size(); ++k) {
        const EdgeLine& e = edges_[k];
        const bool chosen = static_cast<int>(k) == lit_ || (edges_shown && static_cast<int>(k) == edge);
        if (!edges_shown && !chosen)
            continue;
        std::vector<Dot> line;
        for (const auto& p : e.line) {
            Dot d;
            view.px({p.x_mm, p.y_mm}, pane, d.x, d.y);
            d.x -= r.x0, d.y -= r.y0;
            if (line.empty() || std::hypot(d.x - line.back().x, d.y - line.back().y) >= 1.5F)
                line.push_back(d);
        }
        // Edges that the plan says nothing of stay in the background.
        const bool quiet = e.wanted.empty() && !chosen;
        Pen pen = pen_of(e.word, thin * (chosen ? 2 : quiet ? 0.7F : 1));
        // A pale line below makes a dark one readable on darks, and the other way round.
        stroke(lines_, line, {rgb(0xFFFFFF), pen.width + 1.3F * thin, 0, 0, quiet ? 0.35F : 0.75F});
        pen.share = quiet ? 0.6F : 1;
        stroke(lines_, line, pen);
        if (e.as_wanted || e.wanted.empty())
            continue;
        // What is wanted runs beside it in its own line, and in another tone.
        std::vector<Dot> beside;
        for (std::size_t n = 0; n < line.size(); ++n) {
            const Dot a = line[n == 0 ? 0 : n - 1], b = line[std::min(n + 1, line.size() - 1)];
            const float dx = b.x - a.x, dy = b.y - a.y, length = std::max(1e-3F, std::hypot(dx, dy));
            const float off = 3.6F * thin;
            beside.push_back({line[n].x - dy / length * off, line[n].y + dx / length * off});
        }
        Pen wanted = pen_of(e.wanted, thin * (chosen ? 2 : 1));
        stroke(lines_, beside, {rgb(0xFFFFFF), wanted.width + thin, 0, 0, 0.6F});
        wanted.colour = rgb(0xB4400A);
        stroke(lines_, beside, wanted);
    }
}

Pen pen_of(const std::string& word, float thin) {
    if (word == "hard")
        return {rgb(0x141414), 1.6F * thin, 0, 0};
    if (word == "firm")
        return {rgb(0x141414), 1.6F * thin, 9 * thin, 3 * thin};
    if (word == "soft")
        return {rgb(0x141414), 1.6F * thin, 4.5F * thin, 4.5F * thin};
    return {rgb(0x141414), 1.6F * thin, 1.6F * thin, 5 * thin};
}

} // namespace tidemark::viewer
