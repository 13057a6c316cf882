#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <set>

#include "grid/files.h"
#include "grid/problem.h"

namespace tidemark::grid {

namespace fs = std::filesystem;

namespace {

const std::string aside_begins = ".tidemark-";
constexpr std::size_t aside_length = 16; ///< of the name: with the six letters of mkdtemp

[[noreturn]] void refuse(const fs::path& path, int error_number) {
    throw IoError(fmt::format("{}: can't be written: {}", path.string(), std::strerror(error_number)));
}

int open_folder(const fs::path& folder) { return open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC); }

bool is_there(const fs::path& folder, int open_file) {
    struct stat by_name{}, by_file{};
    return lstat(folder.c_str(), &by_name) == 0 && fstat(open_file, &by_file) == 0 && by_name.st_ino == by_file.st_ino &&
           by_name.st_dev == by_file.st_dev;
}

dev_t file_system_of(const fs::path& place) {
    struct stat s{};
    return stat(place.c_str(), &s) == 0 ? s.st_dev : dev_t{};
}

bool only_digits(const std::string& name) {
    return std::all_of(name.begin(), name.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
}

/// What killed runs left: folders of ours that nobody holds.
void sweep(const fs::path& folder) {
    std::error_code none;
    for (fs::directory_iterator it(folder, none), end; !none && it != end; it.increment(none)) {
        const std::string name = it->path().filename().string();
        if (name.size() != aside_length || name.rfind(aside_begins, 0) != 0) continue;
        const int file = open_folder(it->path());
        if (file < 0) continue;
        if (flock(file, LOCK_EX | LOCK_NB) == 0) {
            std::error_code left; // of another user: it stays
            std::set<fs::path> waiting;
            for (const auto& entry : fs::directory_iterator(it->path(), left))
                if (only_digits(entry.path().filename().string())) waiting.insert(entry.path());
            for (const fs::path& one : waiting) unlink(one.c_str());
            rmdir(it->path().c_str()); // not if there is more in it
        }
        close(file);
    }
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
    const int file = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0) return;
    fsync(file); // some file systems refuse it for a folder; the files themselves are synced already
    close(file);
}

/// Held while files change places, so that what two runs write at once is in the end that of one of them.
class Turn {
  public:
    explicit Turn(const fs::path& folder) : file_(open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
        constexpr int tries = 1000; // ten seconds: whoever holds it so long is not one of ours
        for (int k = 0; file_ >= 0 && k < tries && flock(file_, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK; ++k) usleep(10000);
    }
    ~Turn() {
        if (file_ >= 0) close(file_);
    }
    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;

  private:
    int file_;
};

} // namespace

OutputFolder::OutputFolder(fs::path folder) : folder_(std::move(folder)) {
    if (folder_.empty()) folder_ = ".";
    std::error_code error;
    fs::create_directories(folder_, error);
    if (!fs::is_directory(folder_))
        throw IoError(fmt::format("{}: can't make the folder: {}", folder_.string(),
                                  error ? error.message() : "a file of that name is in the way"));
    sweep(folder_);
    make_aside(); // whether it can be written is found out now, not after an hour of painting
}

OutputFolder::~OutputFolder() { remove_aside(); }

void OutputFolder::make_aside() {
    do { // another run's sweep may take it away before it is locked
        if (held_ >= 0) close(held_);
        held_ = -1;
        std::string name = (folder_ / (aside_begins + "XXXXXX")).string();
        if (mkdtemp(name.data()) == nullptr) refuse(folder_, errno);
        aside_ = name;
        held_ = open_folder(aside_);
        if (held_ < 0) {
            const int why = errno;
            rmdir(aside_.c_str());
            refuse(folder_, why);
        }
        flock(held_, LOCK_EX); // a file system without locks: what is left there by a killed run stays
    } while (!is_there(aside_, held_));
}

void OutputFolder::remove_aside() {
    if (held_ < 0) return;
    for (const auto& [waiting, target] : pending_) unlink(waiting.c_str());
    pending_.clear();
    rmdir(aside_.c_str());
    close(held_);
    held_ = -1;
}

void OutputFolder::write(const std::string& name, std::span<const std::uint8_t> bytes) {
    if (held_ < 0) make_aside();
    const fs::path target = folder_ / name, place = target.parent_path();
    std::error_code none;
    if (fs::path(name).has_parent_path()) {
        const fs::file_status is = fs::symlink_status(place, none);
        if (fs::is_symlink(is)) throw IoError(fmt::format("{}: is a link; nothing is written through it", place.string()));
        if (fs::exists(is) && !fs::is_directory(is))
            throw IoError(fmt::format("{}: can't make the folder: a file of that name is in the way", place.string()));
        if (fs::exists(is) && file_system_of(place) != file_system_of(aside_)) refuse(place, EXDEV);
    }
    if (fs::is_directory(fs::symlink_status(target, none))) refuse(target, EISDIR);
    const fs::path waiting = aside_ / std::to_string(written_++);
    const int file = open(waiting.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) refuse(target, errno);
    pending_.emplace_back(waiting, target); // from here on the destructor removes it
    struct Closer {
        int file;
        ~Closer() { close(file); }
    } closer{file};
    write_all(file, target, bytes);
}

void OutputFolder::write(const std::string& name, std::string_view text) {
    write(name, std::span(reinterpret_cast<const std::uint8_t*>(text.data()), text.size()));
}

void OutputFolder::commit() {
    std::set<fs::path> places;
    {
        const Turn turn(folder_);
        for (const auto& [waiting, target] : pending_) places.insert(target.parent_path());
        for (const fs::path& place : places) {
            std::error_code error;
            fs::create_directories(place, error);
            if (error) throw IoError(fmt::format("{}: can't make the folder: {}", place.string(), error.message()));
        }
        for (const auto& [waiting, target] : pending_) // the file written last appears last
            if (std::rename(waiting.c_str(), target.c_str()) != 0) refuse(target, errno);
        pending_.clear();
    }
    remove_aside();
    for (const fs::path& place : places) sync_folder(place);
}

} // namespace tidemark::grid
