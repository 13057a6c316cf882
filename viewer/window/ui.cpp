#include "viewer/window/ui.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace tidemark::viewer {

namespace {

ImVec2 vec(float x, float y) { return ImVec2(std::floor(x), std::floor(y)); }
const char* first(std::string_view s) { return s.data(); }
const char* last(std::string_view s) { return s.data() + s.size(); }

const ImFont& letters(const Ui& ui, const ImFont* font) { return font != nullptr ? *font : *ui.body; }

} // namespace

void fill(Ui& ui, const Rect& r, Colour c) { ui.paint->AddRectFilled(vec(r.x0, r.y0), vec(r.x1, r.y1), c); }

void frame(Ui& ui, const Rect& r, Colour c, float thick) {
    // Four bars: outlines of polygons come out ragged in a software renderer.
    fill(ui, {r.x0, r.y0, r.x1, r.y0 + thick}, c);
    fill(ui, {r.x0, r.y1 - thick, r.x1, r.y1}, c);
    fill(ui, {r.x0, r.y0, r.x0 + thick, r.y1}, c);
    fill(ui, {r.x1 - thick, r.y0, r.x1, r.y1}, c);
}

float text_height(const Ui& ui, const ImFont* font) { return letters(ui, font).FontSize; }

float text_width(const Ui& ui, std::string_view s, const ImFont* font) {
    const ImFont& f = letters(ui, font);
    return f.CalcTextSizeA(f.FontSize, 1e9F, 0, first(s), last(s)).x;
}

float write(Ui& ui, float x, float y, Colour c, std::string_view s, const ImFont* font) {
    const ImFont& f = letters(ui, font);
    ui.paint->AddText(&f, f.FontSize, vec(x, y), c, first(s), last(s));
    return x + text_width(ui, s, font);
}

void write_right(Ui& ui, float x_end, float y, Colour c, std::string_view s, const ImFont* font) {
    write(ui, x_end - text_width(ui, s, font), y, c, s, font);
}

std::string cut_to(const Ui& ui, std::string_view s, float width, const ImFont* font) {
    std::string cut(s);
    if (text_width(ui, s, font) <= width)
        return cut;
    while (!cut.empty() && text_width(ui, cut + "…", font) > width) {
        while (!cut.empty() && (static_cast<unsigned char>(cut.back()) & 0xC0) == 0x80)
            cut.pop_back(); // the rest of a letter of several bytes
        if (!cut.empty())
            cut.pop_back();
    }
    return cut + "…";
}

float write_within(Ui& ui, float x, float y, float width, Colour c, std::string_view s, const ImFont* font) {
    return write(ui, x, y, c, cut_to(ui, s, width, font), font);
}

float wrapped_height(const Ui& ui, float width, std::string_view s, const ImFont* font) {
    const ImFont& f = letters(ui, font);
    return f.CalcTextSizeA(f.FontSize, 1e9F, width, first(s), last(s)).y;
}

float write_wrapped(Ui& ui, float x, float y, float width, Colour c, std::string_view s, const ImFont* font) {
    const ImFont& f = letters(ui, font);
    ui.paint->AddText(&f, f.FontSize, vec(x, y), c, first(s), last(s), width);
    return wrapped_height(ui, width, s, font);
}

Press press(Ui& ui, const std::string& name, const Rect& r, bool in_ring) {
    Press p;
    if (r.width() < 1 || r.height() < 1)
        return p;
    const ImVec2 clip0 = ui.paint->GetClipRectMin(), clip1 = ui.paint->GetClipRectMax();
    const Rect seen{std::max(r.x0, clip0.x), std::max(r.y0, clip0.y), std::min(r.x1, clip1.x), std::min(r.y1, clip1.y)};
    const bool visible = seen.width() >= 1 && seen.height() >= 1;
    if (ui.lifted)
        return p;
    if (visible)
        ui.controls.note(name, seen, in_ring);
    else if (ui.in_column && in_ring)
        ui.controls.note_hidden(name);
    if (in_ring && ui.focus == name)
        ui.focus_at = r;
    ImGui::SetCursorScreenPos(vec(r.x0, r.y0));
    ImGui::PushID(name.c_str());
    p.pressed = ImGui::InvisibleButton("##press", ImVec2(r.width(), r.height()));
    p.hovered = ImGui::IsItemHovered();
    p.held = ImGui::IsItemActive();
    ImGui::PopID();
    p.focused = in_ring && ui.focus == name;
    if (p.pressed)
        ui.focus.clear();
    if (p.focused && ui.enter)
        p.pressed = true;
    return p;
}

void focus_ring(Ui& ui, const Rect& r) {
    const float by = std::round(ui.em * 0.2F);
    frame(ui, {r.x0 - by, r.y0 - by, r.x1 + by, r.y1 + by}, ui.theme.accent, std::max(2.0F, std::round(ui.em * 0.12F)));
}

bool word(Ui& ui, const std::string& label, float& x, float y, bool on, const char* hint, const std::string& name) {
    const float pad = std::round(ui.em * 0.45F), h = text_height(ui);
    const float w = text_width(ui, label, ui.strong), hint_w = hint == nullptr ? 0 : text_width(ui, hint, ui.small) + ui.em * 0.4F;
    const Rect r{x, y - pad * 0.6F, x + w + hint_w + 2 * pad, y + h + pad * 0.8F};
    const Press p = press(ui, name.empty() ? label : name, r);
    if (p.hovered || p.held)
        fill(ui, r, ui.theme.hover);
    write(ui, x + pad, y, on ? ui.theme.accent : ui.theme.ink, label, on ? ui.strong : ui.body);
    if (hint != nullptr)
        write(ui, x + pad + w + ui.em * 0.4F, y + h - text_height(ui, ui.small) - ui.em * 0.06F, ui.theme.quiet, hint,
              ui.small);
    if (on)
        fill(ui, {x + pad, y + h + pad * 0.35F, x + pad + w, y + h + pad * 0.35F + std::max(2.0F, ui.em * 0.12F)},
             ui.theme.accent);
    if (p.focused)
        focus_ring(ui, r);
    x = r.x1;
    return p.pressed;
}

int choose_word(Ui& ui, const std::string& of, const std::vector<std::string>& labels, int on, float x, float& y, float width) {
    const float left = x - std::round(ui.em * 0.45F), line = std::round(1.6F * ui.em);
    float at = left;
    int pressed = -1;
    for (std::size_t k = 0; k < labels.size(); ++k) {
        if (at > left && at + text_width(ui, labels[k], ui.strong) + 0.9F * ui.em > x + width) {
            at = left;
            y += line;
        }
        if (word(ui, labels[k], at, y, static_cast<int>(k) == on, nullptr, of + ": " + labels[k]))
            pressed = static_cast<int>(k);
    }
    y += std::round(1.75F * ui.em);
    return pressed;
}

bool button(Ui& ui, const std::string& label, float& x, float y, bool strong, const std::string& name) {
    const float pad_x = std::round(ui.em * 0.8F), pad_y = std::round(ui.em * 0.4F), h = text_height(ui);
    const ImFont* font = strong ? ui.strong : ui.body;
    const Rect r{x, y, x + text_width(ui, label, font) + 2 * pad_x, y + h + 2 * pad_y};
    const Press p = press(ui, name.empty() ? label : name, r);
    const bool over = p.hovered || p.held;
    fill(ui, r, strong ? ui.theme.accent : over ? ui.theme.hover : ui.theme.slip);
    if (!strong)
        frame(ui, r, ui.theme.rule);
    else if (over)
        frame(ui, r, ui.theme.ink, 2);
    write(ui, x + pad_x, y + pad_y, strong ? ui.theme.ground : ui.theme.ink, label, font);
    if (p.focused)
        focus_ring(ui, r);
    x = r.x1 + ui.em * 0.6F;
    return p.pressed;
}

float slider_height(const Ui& ui) { return std::round(text_height(ui) + ui.em * 1.5F); }

bool slider(Ui& ui, const std::string& label, const std::string& shown, float x, float y, float width, double& value,
            double lowest, double highest, double step, bool& done) {
    write(ui, x, y, ui.theme.ink, label);
    write_right(ui, x + width, y, ui.theme.quiet, shown);
    const float knob = std::round(ui.em * 0.5F), top = y + text_height(ui) + ui.em * 0.25F;
    const Rect track{x, top, x + width, top + 2 * knob};
    const Press p = press(ui, label, track);
    const float run = width - 2 * knob;
    const double before = value;
    done = false;
    if (p.held && run > 1) {
        const double share = std::clamp((ImGui::GetIO().MousePos.x - x - knob) / run, 0.0F, 1.0F);
        value = lowest + share * (highest - lowest);
        value = std::clamp(std::round(value / step) * step, lowest, highest);
    }
    if (p.pressed && !(p.focused && ui.enter))
        done = true;
    if (p.focused && ui.nudge != 0) {
        value = std::clamp(value + step * ui.nudge, lowest, highest);
        done = value != before;
    }
    const float at = x + knob + run * static_cast<float>(highest > lowest ? (value - lowest) / (highest - lowest) : 0);
    const float mid = std::floor(top + knob), thick = std::max(2.0F, std::round(ui.em * 0.14F));
    fill(ui, {x, mid - thick / 2, x + width, mid + thick / 2}, ui.theme.rule);
    fill(ui, {x, mid - thick / 2, at, mid + thick / 2}, ui.theme.accent);
    // A flat mark like a pointer on a rule: whole pixels stay crisp where a disc would not.
    const float half = std::round(ui.em * 0.22F);
    fill(ui, {at - half, top, at + half, top + 2 * knob}, p.held || p.hovered ? ui.theme.ink : ui.theme.accent);
    if (p.focused)
        focus_ring(ui, track);
    return value != before;
}

} // namespace tidemark::viewer
