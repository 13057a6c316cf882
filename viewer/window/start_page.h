/// The first page: what can be opened, in a few lines of words.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "viewer/window/canvas.h"
#include "viewer/window/ui.h"
#include "viewer/studio/recovery.h"

namespace tidemark::viewer {

struct StartPage {
    struct Line {
        std::string title, about;
        std::filesystem::path path;
    };
    /// A picture of what a demo comes to, read once and made as wide as its column.
    struct Card {
        Line line;
        grid::Picture picture;
        Shown shown;
        int width = 0, height = 0;
    };
    std::vector<Card> demos;
    std::vector<Line> lessons, recent;
    std::vector<Recovered> left_over; ///< of a program that ended without saving
    std::string typed;                ///< a path, by hand
    float scroll = 0;

    // What was asked for; the window takes and clears it.
    std::optional<std::filesystem::path> wants;
    std::optional<Recovered> recovers, throws_away;

    /// Looks for plans and lessons among the presets.
    void look(const std::filesystem::path& presets);
    void draw(Ui&, SDL_Renderer*, const Rect& all, const std::string& note, bool note_is_wrong);

  private:
    float draw_card(Ui&, SDL_Renderer*, Card&, float x, float y, float width); ///< its height
    float draw_drop(Ui&, const Rect&);
    float draw_lines(Ui&, const char* heading, const std::vector<Line>&, float x, float y, float width);
};

} // namespace tidemark::viewer
