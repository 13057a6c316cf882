/// What a file or folder is that was dropped on the window or named on the command line.
#pragma once
#include <filesystem>
#include <string>

namespace tidemark::viewer {

struct Opened {
    enum class Is { plan, picture, results, lesson, nothing };
    Is is = Is::nothing;
    std::filesystem::path path; ///< plan: the .toml; results: the folder with sheet.png; lesson: its folder
    std::string why_not;        ///< when it is nothing: one sentence
};
Opened what_is(const std::filesystem::path&);

} // namespace tidemark::viewer
