/// What to mind with a material or an act: presets/cautions.csv, one line each. General knowledge; the label and the
/// safety sheet that come with the material go first. Errors: BadInput with file, row and column.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace tidemark::materials {

struct Caution {
    std::vector<std::string> applies_to; ///< pigment ids, "warm-air", "sun", "every-plan", "general"
    std::string what;                    ///< "PB28, PB35 (cobalt)"
    std::string level;                   ///< note, low, medium, high
    std::string text;
    bool concerns(const std::string& name) const; ///< a pigment id or one of the words above
};

std::vector<Caution> read_cautions(const std::filesystem::path& presets_folder);

} // namespace tidemark::materials
