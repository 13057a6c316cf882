#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace fs = std::filesystem;

namespace {

/// Names beside a file that isn't there, in the way the plan would write them.
std::vector<std::string> neighbours(const fs::path& folder, const fs::path& relative) {
    std::vector<std::string> names;
    std::error_code error;
    for (fs::directory_iterator it((folder / relative).parent_path(), error), end; !error && it != end;
         it.increment(error)) {
        names.push_back((relative.parent_path() / it->path().filename()).string());
        if (names.size() == 1000)
            break;
    }
    return names;
}

/// Symbolic links followed: does it still lie in the folder?
bool lies_in(const fs::path& folder, const fs::path& file) {
    std::error_code error;
    const fs::path home = fs::weakly_canonical(folder, error);
    if (error)
        return false;
    const fs::path real = fs::weakly_canonical(file, error);
    if (error)
        return false;
    const fs::path relative = real.lexically_relative(home);
    return !relative.empty() && *relative.begin() != "..";
}

} // namespace

fs::path file_in_folder(Reading& reading, Keys& keys, const std::string& key) {
    const std::string text = keys.text(key, {}, "a picture file in quotes, such as \"masks/sky.png\"");
    if (text.empty())
        return {};
    const fs::path relative = text;
    bool leaves = relative.is_absolute();
    for (const fs::path& part : relative)
        leaves = leaves || part == "..";
    const std::string what = fmt::format("{} {}", key, in_quotes(text));
    if (leaves || !lies_in(reading.folder, reading.folder / relative)) {
        keys.refuse(key, what + " leaves the plan's folder",
                    "a file in the plan's folder, such as \"masks/sky.png\"");
        return {};
    }
    std::error_code error;
    const fs::file_status status = fs::status(reading.folder / relative, error);
    if (status.type() == fs::file_type::not_found || error) {
        const std::string nearest = grid::did_you_mean(text, neighbours(reading.folder, relative));
        keys.refuse(key, what + ": no such file" + nearest);
        return {};
    }
    return reading.folder / relative;
}

} // namespace tidemark::plan
