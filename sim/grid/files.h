/// Files written whole or not at all.
///
/// OutputFolder collects the outputs of one run in a hidden folder beside them, .tidemark-XXXXXX; commit() renames all of
/// them into place, one directory entry after the other, and syncs. Each file is the old or the new one at any moment, and
/// two runs that commit into one folder take turns. Destroyed without commit(), it removes what it has written: the folder
/// keeps the old outputs. A run that was killed can't: what it left is removed by the next one that writes there, which
/// knows it by the lock that nobody holds any more.
///
/// Nothing is written through a link: a linked file is replaced, a linked subfolder refused. Errors: IoError with path and
/// reason.
#pragma once
#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace tidemark::grid {

class OutputFolder {
  public:
    explicit OutputFolder(std::filesystem::path folder); ///< makes it; refuses early when it can't be written
    ~OutputFolder();
    OutputFolder(const OutputFolder&) = delete;
    OutputFolder& operator=(const OutputFolder&) = delete;
    void write(const std::string& name, std::span<const std::uint8_t> bytes); ///< name may hold one subfolder
    void write(const std::string& name, std::string_view text);
    void commit();
    const std::filesystem::path& folder() const { return folder_; }

  private:
    std::filesystem::path folder_, aside_; ///< aside_: where files wait; empty: not made yet
    int held_ = -1;                        ///< aside_, open and locked
    std::size_t written_ = 0;
    std::vector<std::pair<std::filesystem::path, std::filesystem::path>> pending_; ///< where it waits, where it goes
    void make_aside();
    void remove_aside();
};

/// The whole file as text or bytes. Errors: BadInput (missing, unreadable, larger than `max_bytes`).
std::string read_text(const std::filesystem::path&, std::int64_t max_bytes = 16 << 20);

/// Links followed: does `file` lie in the folder, or below it? Neither needs to be there.
bool lies_in(const std::filesystem::path& folder, const std::filesystem::path& file);

/// Where the presets lie: $TIDEMARK_PRESETS, else beside the program (../share/tidemark/presets, then ../presets,
/// ../../presets for a build tree). Errors: IoError that lists the places looked at.
std::filesystem::path presets_folder();

} // namespace tidemark::grid
