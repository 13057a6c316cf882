#include "grid/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
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

namespace {

[[noreturn]] void refuse(const fs::path& path, int error_number) {
    throw IoError(fmt::format("{}: can't be written: {}", path.string(), std::strerror(error_number)));
}

/// A new file of our own in that folder, with a name no other run has.
int open_temporary(const fs::path& folder, std::string& name) {
    name = (folder / ".tidemark-XXXXXX").string();
    const int file = mkstemp(name.data());
    if (file < 0) refuse(folder, errno);
    return file;
}

void write_all(int file, const fs::path& shown, std::span<const std::uint8_t> bytes) {
    while (!bytes.empty()) {
        const ssize_t done = ::write(file, bytes.data(), bytes.size());
        if (done < 0 && errno == EINTR) continue;
        if (done < 0) refuse(shown, errno);
        bytes = bytes.subspan(static_cast<std::size_t>(done));
    }
    if (fsync(file) != 0 && errno != EINVAL) refuse(shown, errno); // EINVAL: a file system without it
}

void sync_folder(const fs::path& folder) {
    const int file = open(folder.c_str(), O_RDONLY | O_DIRECTORY);
    if (file < 0) return;
    fsync(file); // some file systems refuse it for a folder; the files themselves are synced already
    close(file);
}

} // namespace

OutputFolder::OutputFolder(fs::path folder) : folder_(std::move(folder)) {
    if (folder_.empty()) folder_ = ".";
    std::error_code error;
    fs::create_directories(folder_, error);
    if (!fs::is_directory(folder_))
        throw IoError(fmt::format("{}: can't make the folder: {}", folder_.string(),
                                  error ? error.message() : "a file of that name is in the way"));
    std::string name; // found out now, not after an hour of painting
    close(open_temporary(folder_, name));
    unlink(name.c_str());
}

OutputFolder::~OutputFolder() {
    for (const auto& [temporary, final_name] : pending_) unlink(temporary.c_str());
}

void OutputFolder::write(const std::string& name, std::span<const std::uint8_t> bytes) {
    const fs::path target = folder_ / name;
    const fs::path place = target.parent_path();
    std::error_code error;
    fs::create_directories(place, error);
    if (error) throw IoError(fmt::format("{}: can't make the folder: {}", place.string(), error.message()));
    std::string temporary;
    const int file = open_temporary(place, temporary);
    pending_.emplace_back(temporary, target); // from here on the destructor removes it
    struct Closer {
        int file;
        ~Closer() { close(file); }
    } closer{file};
    const mode_t mask = umask(0);
    umask(mask);
    fchmod(file, 0666 & ~mask); // mkstemp makes files only the owner can read
    write_all(file, target, bytes);
}

void OutputFolder::write(const std::string& name, std::string_view text) {
    write(name, std::span(reinterpret_cast<const std::uint8_t*>(text.data()), text.size()));
}

void OutputFolder::commit() {
    while (!pending_.empty()) { // front to back, so that the file written last appears last
        const auto [temporary, target] = pending_.front();
        if (std::rename(temporary.c_str(), target.c_str()) != 0) refuse(target, errno);
        pending_.erase(pending_.begin());
        sync_folder(target.parent_path());
    }
}

} // namespace tidemark::grid
