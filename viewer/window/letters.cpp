#include "viewer/window/letters.h"

#include <imgui.h>
#include <imgui_freetype.h>

#include <cmath>

#include "viewer/window/ui.h"

namespace tidemark::viewer {

namespace {

/// Latin with its accents, Greek mu, dashes, arrows and signs that are used; both fonts have them.
const ImWchar ranges[] = {0x20,   0x17F,  0x3BC,  0x3BC,  0x2010, 0x2026, 0x2032, 0x2033, 0x2039, 0x203A, 0x2190, 0x2193,
                          0x2206, 0x2206, 0x2212, 0x2212, 0x2248, 0x2248, 0x2264, 0x2265, 0};

ImFont* add(std::span<const unsigned char> bytes, float px) {
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    config.OversampleH = config.OversampleV = 1;
    config.PixelSnapH = true;
    // ImGui only reads the bytes, though it asks for them as its own.
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(bytes.data()),
                                                      static_cast<int>(bytes.size()), std::round(px), &config, ranges);
}

} // namespace

void load_letters(Ui& ui, float em) {
    ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    atlas.Clear();
    atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    atlas.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
    ui.em = std::round(em);
    ui.body = add(regular_letters(), em);
    ui.strong = add(strong_letters(), em);
    ui.title = add(strong_letters(), em * 1.6F);
    ui.small = add(regular_letters(), em * 0.86F);
    atlas.Build();
}

} // namespace tidemark::viewer
