// The page as a whole, and the line of words at its head.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

void Desk::draw(Ui& ui, SDL_Renderer* renderer, const Rect& all) {
    const float em = ui.em, top = std::round(2.9F * em);
    const bool broken = !studio.document().problems().empty() && !studio.document().plan();
    const float margin = std::round(std::min(20 * em, 0.36F * all.width()));
    const float most = std::max(3.0F, std::floor((0.31F * all.height() / em - 3.9F) / 1.42F));
    const float rows = std::clamp(static_cast<float>(strip_.rows.size()), 3.0F, most);
    const float foot = std::round(std::min((3.9F + 1.42F * rows) * em, 0.4F * all.height()));
    mat_area_ = {all.x0, all.y0 + top, all.x1 - margin, all.y1 - foot};
    margin_ = {mat_area_.x1, all.y0 + top, all.x1, all.y1 - foot};
    line_ = {all.x0, all.y1 - foot, all.x1, all.y1};
    patterns_.make(renderer, ui.theme, static_cast<int>(std::round(0.95F * em)));
    fill(ui, all, ui.theme.ground);
    draw_top(ui, {all.x0, all.y0, all.x1, all.y0 + top});
    if (broken)
        return draw_problems(ui, {all.x0, all.y0 + top, all.x1, all.y1});
    draw_mat(ui, renderer, mat_area_);
    draw_margin(ui, margin_);
    draw_line(ui, renderer, line_);
    draw_glass(ui, mat_area_);
}

void Desk::draw_top(Ui& ui, const Rect& r) {
    const float em = ui.em, y = std::round(r.y0 + 0.95F * em);
    const Document& document = studio.document();
    const std::string folder = document.file().parent_path().filename().string();
    std::string name = document.file().filename().string();
    if (name == "plan.toml" && !folder.empty())
        name = folder;
    // The words for looks and comparing take what they need; the name has the rest.
    float words = 0;
    constexpr std::pair<LookKind, const char*> looks[] = {{LookKind::now, "wet, as now"},
                                                          {LookKind::dried, "as it will dry"},
                                                          {LookKind::values, "values"},
                                                          {LookKind::groups, "groups"},
                                                          {LookKind::water, "water"}};
    const std::string against = compare == Compare::alone ? "compare" : fmt::format("compare: {}", word_of(compare));
    for (const auto& [kind, label] : looks)
        words += text_width(ui, label) + text_width(ui, "n", ui.small) + 1.3F * em;
    for (const std::string& label : {against, std::string("edges"), std::string("the sheet"), std::string("in class"),
                                     std::string("keys")})
        words += text_width(ui, label) + text_width(ui, "F11", ui.small) + 1.3F * em;
    const bool tight = words + 8 * em > r.width();
    float x = r.x0 + 0.6F * em;
    if (word(ui, "‹ plans", x, y, false, nullptr, "first page"))
        wants_to_leave = true;
    const float room = tight ? 6 * em : std::max(6 * em, r.width() - words - (x - r.x0) - 3 * em);
    const std::string title = name + (document.changed() ? " · edited" : "");
    x = std::min(write_within(ui, x + 0.5F * em, y, room, ui.theme.ink, title, ui.strong), x + 0.5F * em + room) + 1.2F * em;
    constexpr Do does[] = {Do::look_now, Do::look_dried, Do::look_values, Do::look_groups, Do::look_water};
    for (std::size_t k = 0; k < std::size(looks); ++k) {
        const bool on = look == looks[k].first && compare != Compare::difference;
        if (word(ui, looks[k].second, x, y, on, tight ? nullptr : key_of(does[k])))
            obey(does[k]);
    }
    x += 0.6F * em;
    if (word(ui, against, x, y, compare != Compare::alone, tight ? nullptr : key_of(Do::compare), "compare"))
        obey(Do::compare);
    if (word(ui, "edges", x, y, edges_shown, tight ? nullptr : key_of(Do::edges)))
        obey(Do::edges);
    if (word(ui, "the sheet", x, y, slip == Slip::sheet)) {
        slip = slip == Slip::sheet ? Slip::none : Slip::sheet;
        slip_scroll_ = 0;
    }
    if (word(ui, "in class", x, y, false, tight ? nullptr : key_of(Do::in_class)))
        asks_for = Do::in_class;
    if (word(ui, "keys", x, y, false, tight ? nullptr : key_of(Do::keys)))
        asks_for = Do::keys;
    fill(ui, {r.x0, r.y1 - 1, r.x1, r.y1}, ui.theme.rule);
}

void Desk::draw_problems(Ui& ui, const Rect& r) {
    const float em = ui.em, width = std::min(46 * em, r.width() - 4 * em);
    float x = r.x0 + 2 * em, y = r.y0 + 2 * em;
    write(ui, x, y, ui.theme.ink, "This plan can't be read yet", ui.title);
    y += 2.6F * em;
    y += write_wrapped(ui, x, y, width, ui.theme.quiet, "Mend it in an editor, save, and read it again:") + em;
    for (const grid::Problem& p : studio.document().problems()) {
        y += write_wrapped(ui, x, y, width, ui.theme.warning, p.line()) + 0.6F * em;
        if (y > r.y1 - 5 * em)
            break;
    }
    y += em;
    if (button(ui, "Read again", x, y, true))
        obey(Do::read_again);
    write(ui, x, y + 0.4F * em, ui.theme.quiet, key_of(Do::read_again), ui.small);
}

} // namespace tidemark::viewer
