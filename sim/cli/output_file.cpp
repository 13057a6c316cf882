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

} // namespace tidemark::cli
