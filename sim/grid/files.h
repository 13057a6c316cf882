/// Files written whole or not at all.
///
/// OutputFolder collects the outputs of one run, each written to a hidden temporary name in the folder (created if
/// missing); commit() renames all of them, one directory entry after the other, and syncs. Destroyed without commit(),
/// it removes its temporaries: the folder keeps the old outputs. Errors: IoError with path and reason.
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
    std::filesystem::path folder_;
    std::vector<std::pair<std::filesystem::path, std::filesystem::path>> pending_; ///< temporary, final
};

/// The whole file as text or bytes. Errors: BadInput (missing, unreadable, larger than `max_bytes`).
std::string read_text(const std::filesystem::path&, std::int64_t max_bytes = 16 << 20);

/// Where the presets lie: $TIDEMARK_PRESETS, else beside the program (../share/tidemark/presets, then ../presets,
/// ../../presets for a build tree). Errors: IoError that lists the places looked at.
std::filesystem::path presets_folder();

} // namespace tidemark::grid
