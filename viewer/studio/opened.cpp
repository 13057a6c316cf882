#include "viewer/studio/opened.h"

#include "plan/lesson.h"

#include <algorithm>
#include <cctype>

namespace tidemark::viewer {

namespace fs = std::filesystem;

Opened what_is(const fs::path& given) {
    std::error_code none;
    const fs::path path = given.lexically_normal();
    const auto nothing = [&](const std::string& why) { return Opened{Opened::Is::nothing, path, why}; };
    if (!fs::exists(path, none)) return nothing("there is no such file or folder");
    if (fs::is_directory(path, none)) {
        if (fs::exists(path / plan::lesson_file, none)) return {Opened::Is::lesson, path, ""};
        if (fs::exists(path / "plan.toml", none)) return {Opened::Is::plan, path / "plan.toml", ""};
        if (fs::exists(path / "sheet.png", none)) return {Opened::Is::results, path, ""};
        return nothing("a folder without plan.toml, sheet.png or lesson.toml");
    }
    std::string kind = path.extension().string();
    std::transform(kind.begin(), kind.end(), kind.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (path.filename() == plan::lesson_file) return {Opened::Is::lesson, path.parent_path(), ""};
    if (kind == ".toml") return {Opened::Is::plan, path, ""};
    if (kind == ".png" || kind == ".jpg" || kind == ".jpeg") return {Opened::Is::picture, path, ""};
    return nothing("neither a plan (.toml) nor a picture (.png, .jpg)");
}

} // namespace tidemark::viewer
