/// Colours and sizes of the window, in light or dark surroundings. The sheet's own surround is the same neutral grey in
/// both: what lies round a value changes how it is seen.
///
/// Every text stands on its ground at 4.5:1 or more (WCAG 2 contrast; a test holds the pairs below to it).
#pragma once
#include <cstdint>
#include <vector>

namespace tidemark::viewer {

using Colour = std::uint32_t; ///< as ImGui has it: alpha, blue, green, red from the highest byte

constexpr Colour rgb(unsigned code, unsigned alpha = 255) { ///< 0xRRGGBB
    return (alpha << 24) | ((code & 0xFF) << 16) | (code & 0xFF00) | ((code >> 16) & 0xFF);
}

struct Theme {
    bool dark = false;
    Colour ground = rgb(0xF3F0E8);  ///< behind everything but the sheet
    Colour slip = rgb(0xFBFAF6);    ///< what lies on top: slips, fields
    Colour hover = rgb(0xE8E3D7);
    Colour rule = rgb(0xD8D1C3);    ///< hairlines
    Colour ink = rgb(0x2A2825);
    Colour quiet = rgb(0x625C52);   ///< second ink
    Colour accent = rgb(0x2F5A6B);
    Colour warning = rgb(0x994618);
    Colour mat = rgb(0xB2B2B2);     ///< round the sheet, in both surroundings
    Colour mat_ink = rgb(0x1E1E1E); ///< text on it
};

Theme light_theme();
Theme dark_theme();

/// Text and what it is written on, for the contrast test.
struct Pair {
    const char* what;
    Colour text, ground;
};
std::vector<Pair> text_pairs(const Theme&);
double contrast(Colour, Colour); ///< 1 ... 21

} // namespace tidemark::viewer
