#include "grid/files.h"
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

constexpr const char* allowed = "a file in the plan's folder, such as \"masks/sky.png\"";

std::string or_by_option() { return fmt::format("{}; or any that you may read, with {}", allowed, outside_option); }

/// What is wrong with where it lies; empty: nothing.
std::string leaves(const Reading& reading, const fs::path& relative) {
    bool up = relative.is_absolute();
    for (const fs::path& part : relative)
        up = up || part == "..";
    if (up)
        return " leaves the plan's folder";
    std::error_code error;
    if (fs::weakly_canonical(reading.folder / relative, error).empty() || error) // no link leads anywhere: what is wrong is said below
        return {};
    return grid::lies_in(reading.folder, reading.folder / relative) ? "" : " is a link that leaves the plan's folder";
}

} // namespace

fs::path file_in_folder(Reading& reading, Keys& keys, const std::string& key) {
    const std::string text = keys.text(key, {}, "a picture file in quotes, such as \"masks/sky.png\"");
    if (text.empty())
        return {};
    const fs::path relative = text;
    const std::string what = fmt::format("{} {}", key, in_quotes(text));
    if (reading.from == FilesFrom::folder) {
        if (const std::string wrong = leaves(reading, relative); !wrong.empty()) {
            keys.refuse(key, what + wrong, or_by_option());
            return {};
        }
    }
    std::error_code error;
    const fs::file_status status = fs::status(reading.folder / relative, error);
    if (status.type() == fs::file_type::not_found || error) {
        const std::string nearest = grid::did_you_mean(text, neighbours(reading.folder, relative));
        keys.refuse(key, what + ": no such file" + nearest);
        return {};
    }
    if (!fs::is_regular_file(status) && !fs::is_directory(status)) { // whoever reads one says that it is a folder
        keys.refuse(key, what + " is a pipe or a device", allowed);
        return {};
    }
    return reading.folder / relative;
}

std::string as_named(const Reading& reading, const fs::path& file) {
    const fs::path relative = file.lexically_relative(reading.folder);
    return (relative.empty() || *relative.begin() == ".." ? file : relative).string();
}

} // namespace tidemark::plan
