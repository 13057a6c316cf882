#include "viewer/window/patterns.h"

#include <imgui.h>

#include <cmath>

namespace tidemark::viewer {

namespace {

constexpr int length = 1020; ///< pixels of a pattern, a multiple of its steps

} // namespace

void Patterns::make(SDL_Renderer* renderer, const Theme& theme, int height) {
    if (shown_.texture() != nullptr && height == height_ && theme.dark == dark_)
        return;
    height_ = height, dark_ = theme.dark;
    const Colour water = theme.dark ? rgb(0x8FB6C6) : rgb(0x3F6C7F), ground = theme.dark ? rgb(0x33383C) : rgb(0xE4E6E4);
    Canvas c;
    c.size(length, 4 * height, ground);
    const int hatch = height >= 18 ? 10 : 6, dot = height >= 18 ? 6 : 4, thick = height >= 18 ? 2 : 1;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < length; ++x) {
            c.blend(x, y, water, 1);
            if ((x + y) % hatch < hatch / 2)
                c.blend(x, height + y, water, 0.85F);
            if (x % dot < thick && (y + 1) % dot < thick)
                c.blend(x, 2 * height + y, water, 0.9F);
            if (y == height - 1)
                c.blend(x, 3 * height + y, water, 0.7F);
        }
    shown_.take(renderer, c);
}

void Patterns::draw(Ui& ui, const Rect& r, int stage) const {
    const float v0 = static_cast<float>(stage) / 4, v1 = v0 + std::min(r.height(), static_cast<float>(height_)) / 4 /
                                                                  static_cast<float>(height_);
    // From where the ribbon's own zero is, so that a pattern does not swim when its span grows.
    for (float x = std::floor(r.x0); x < std::floor(r.x1);) {
        const float phase = std::fmod(x, static_cast<float>(length));
        const float n = std::min(std::floor(r.x1) - x, length - phase);
        ui.paint->AddImage(shown_.texture(), ImVec2(x, std::floor(r.y0)),
                           ImVec2(x + n, std::floor(r.y0) + std::min(r.height(), static_cast<float>(height_))),
                           ImVec2(phase / length, v0), ImVec2((phase + n) / length, v1));
        x += n;
    }
}

} // namespace tidemark::viewer
