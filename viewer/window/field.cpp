#include <imgui.h>
#include <imgui_stdlib.h>

#include "viewer/window/ui.h"

namespace tidemark::viewer {

bool field(Ui& ui, const std::string& name, std::string& text, float x, float y, float width) {
    const float pad = ui.em * 0.4F;
    const Rect r{x, y, x + width, y + text_height(ui) + 2 * pad};
    const ImVec2 clip0 = ui.paint->GetClipRectMin(), clip1 = ui.paint->GetClipRectMax();
    if (r.y1 > clip0.y && r.y0 < clip1.y)
        ui.controls.note(name, r, true);
    else
        ui.controls.note_hidden(name);
    if (ui.focus == name)
        ui.focus_at = r;
    ImGui::SetCursorScreenPos(ImVec2(x, y));
    ImGui::SetNextItemWidth(width);
    ImGui::PushFont(ui.body);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(pad, pad));
    ImGui::PushStyleVar(ImGuiStyleVar_FrameBorderSize, 1);
    ImGui::PushStyleColor(ImGuiCol_FrameBg, ui.theme.slip);
    ImGui::PushStyleColor(ImGuiCol_Border, ui.theme.quiet);
    ImGui::PushStyleColor(ImGuiCol_Text, ui.theme.ink);
    ImGui::PushStyleColor(ImGuiCol_TextSelectedBg, (ui.theme.accent & 0x00FFFFFFU) | 0x50000000U);
    ImGui::GetIO().ConfigInputTextCursorBlink = false; // frames are drawn when something happens: it would be out as often as not
    if (ui.focus == name && !ImGui::IsAnyItemActive())
        ImGui::SetKeyboardFocusHere();
    ImGui::PushID(name.c_str());
    const bool entered = ImGui::InputText("##text", &text, ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll);
    if (ImGui::IsItemActivated())
        ui.focus = name;
    if (entered)
        ui.focus.clear(); // the keys are the page's again
    ImGui::PopID();
    ImGui::PopStyleColor(4);
    ImGui::PopStyleVar(2);
    ImGui::PopFont();
    return entered;
}

} // namespace tidemark::viewer
