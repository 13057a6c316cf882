#include <fmt/format.h>

#include <cstdlib>

#include "grid/files.h"
#include "grid/problem.h"

namespace tidemark::grid {

namespace fs = std::filesystem;

fs::path presets_folder() {
    const auto holds_presets = [](const fs::path& folder) {
        std::error_code error;
        return fs::is_regular_file(folder / "papers.csv", error);
    };
    if (const char* named = std::getenv("TIDEMARK_PRESETS"); named != nullptr && *named != '\0') {
        if (holds_presets(named)) return named;
        throw IoError(fmt::format("TIDEMARK_PRESETS is {}, and no papers.csv is in there", named));
    }
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    if (error) throw IoError("can't find the presets: /proc/self/exe can't be read; set TIDEMARK_PRESETS");
    std::string looked_at;
    for (const char* way : {"../share/tidemark/presets", "../presets", "../../presets"}) {
        const fs::path folder = (program.parent_path() / way).lexically_normal();
        if (holds_presets(folder)) return folder;
        looked_at += (looked_at.empty() ? "" : ", ") + folder.string();
    }
    throw IoError(fmt::format("no presets (papers.csv) in {}; set TIDEMARK_PRESETS to their folder", looked_at));
}

} // namespace tidemark::grid
