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

} // namespace tidemark::cli
