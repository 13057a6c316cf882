#include "grid/files.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fstream>

#include "grid/problem.h"

namespace tidemark::grid {

namespace fs = std::filesystem;

std::string read_text(const fs::path& path, std::int64_t max_bytes) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (status.type() == fs::file_type::not_found) throw BadInput(path.string(), "no such file");
    if (status.type() == fs::file_type::directory) throw BadInput(path.string(), "is a folder", "a file");
    std::ifstream in(path, std::ios::binary);
    if (!in) throw BadInput(path.string(), fmt::format("can't be read: {}", std::strerror(errno)));
    // Read in pieces up to the limit: the size of a pipe or a device is not known beforehand.
    std::string text;
    char piece[1 << 16];
    while (in.read(piece, sizeof piece), in.gcount() > 0) {
        text.append(piece, static_cast<std::size_t>(in.gcount()));
        if (static_cast<std::int64_t>(text.size()) > max_bytes)
            throw BadInput(path.string(), "the file is too large", fmt::format("at most {} bytes", max_bytes));
    }
    if (in.bad()) throw BadInput(path.string(), "can't be read to its end");
    return text;
}

bool lies_in(const fs::path& folder, const fs::path& file) {
    std::error_code error;
    const fs::path home = fs::weakly_canonical(fs::absolute(folder, error), error);
    if (error) return false;
    const fs::path real = fs::weakly_canonical(fs::absolute(file, error), error);
    if (error) return false;
    const fs::path relative = real.lexically_relative(home);
    return !relative.empty() && *relative.begin() != "..";
}

} // namespace tidemark::grid
