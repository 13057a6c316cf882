/// The first page: what can be opened, in a few lines of words.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "viewer/window/ui.h"
#include "viewer/work/recovery.h"

namespace tidemark::viewer {

struct StartPage {
    struct Line {
        std::string title, about;
        std::filesystem::path path;
    };
    std::vector<Line> demos, lessons, recent;
    std::vector<Recovered> left_over; ///< of a program that ended without saving
    std::string typed;                ///< a path, by hand
    float scroll = 0;

    // What was asked for; the window takes and clears it.
    std::optional<std::filesystem::path> wants;
    std::optional<Recovered> recovers, throws_away;

    /// Looks for plans and lessons among the presets.
    void look(const std::filesystem::path& presets);
    void draw(Ui&, const Rect& all, const std::string& note, bool note_is_wrong);
};

} // namespace tidemark::viewer
