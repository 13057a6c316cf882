/// A file in memory with a path, for readers that want one. One a thing read, rewritten for every input.
#pragma once
#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <string>

namespace tidemark::trust {

class MemoryFile {
  public:
    MemoryFile() : number_(memfd_create("input", 0)) {
        if (number_ < 0) std::abort();
    }
    void hold(const std::uint8_t* bytes, std::size_t n) const {
        if (ftruncate(number_, 0) != 0 || pwrite(number_, bytes, n, 0) != static_cast<ssize_t>(n)) std::abort();
    }
    std::filesystem::path path() const { return "/proc/self/fd/" + std::to_string(number_); }

  private:
    int number_;
};

/// A folder of this process in memory, in which names lead to memory files.
inline std::filesystem::path memory_folder() {
    const std::filesystem::path folder = "/dev/shm/tidemark-fuzz-" + std::to_string(getpid());
    std::filesystem::create_directories(folder);
    static const bool once = std::atexit([] { std::filesystem::remove_all("/dev/shm/tidemark-fuzz-" + std::to_string(getpid())); }) == 0;
    static_cast<void>(once);
    return folder;
}

inline std::filesystem::path named(const MemoryFile& file, const std::string& name) {
    const std::filesystem::path link = memory_folder() / name;
    std::filesystem::create_directories(link.parent_path());
    std::filesystem::remove(link);
    std::filesystem::create_symlink(file.path(), link);
    return link;
}

} // namespace tidemark::trust
