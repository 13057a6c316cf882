#include <algorithm>
#include <fmt/format.h>

#include "cli/commands.h"
#include "grid/problem.h"

namespace tidemark::cli {

std::filesystem::path output_file(const std::string& text, const std::string& where) {
    const std::filesystem::path file = text;
    if (!file.has_filename() || std::filesystem::is_directory(file))
        throw grid::BadInput(where, fmt::format("\"{}\" is a folder", text), "a file's name");
    return file;
}

bool same_file(const std::filesystem::path& a, const std::filesystem::path& b) {
    const auto place = [](const std::filesystem::path& p) {
        std::error_code unreadable; // then the folder can't be written either, and says so itself
        return std::filesystem::weakly_canonical(std::filesystem::absolute(p), unreadable);
    };
    return place(a) == place(b) && !place(a).empty();
}

void keep_picture(const std::string& picture, const std::string& out, const std::vector<std::string>& names) {
    const std::filesystem::path folder = out, file = picture;
    const bool mask = same_file(file.parent_path().empty() ? "." : file.parent_path(), folder / "masks");
    if (mask || std::any_of(names.begin(), names.end(), [&](const std::string& n) { return same_file(file, folder / n); }))
        throw grid::BadInput("--out", "\"" + out + "\" is where the picture lies: it would be written over", "another folder");
}

} // namespace tidemark::cli
