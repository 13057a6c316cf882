/// The joint between SDL2 and Dear ImGui: events in, triangles out.
///
/// Written for events that may come from a script as well as from a hand: where the pointer is, and what is pressed, is
/// known from events alone, never asked of SDL. All positions are pixels of the output, whatever the window's units.
/// Errors: IoError when SDL refuses a texture.
#pragma once
#include <SDL.h>

#include <array>
#include <memory>

struct ImDrawData;

namespace tidemark::viewer {

using Texture = std::unique_ptr<SDL_Texture, decltype(&SDL_DestroyTexture)>;

class Joint {
  public:
    Joint(SDL_Window*, SDL_Renderer*); ///< the ImGui context must exist
    void on_event(const SDL_Event&);
    void begin(double dt_s);           ///< before ImGui::NewFrame
    void draw(const ImDrawData&);
    void take_letters();               ///< the font atlas as it is now, to the renderer

  private:
    SDL_Window* window_;
    SDL_Renderer* renderer_;
    Texture letters_{nullptr, SDL_DestroyTexture};
    std::array<bool, 3> down_{}, clicked_{}; ///< left, right, middle; clicked: pressed since the frame before
    void place_pointer(int x, int y);
};

} // namespace tidemark::viewer
