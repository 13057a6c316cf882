// What a painter writes of a picture's masses on the command line, an option a line: parsed, and done to the masses of a
// small scene, or BadInput.
#include <sstream>
#include <string>

#include "cli/masses_options.h"
#include "grid/problem.h"

using namespace tidemark;

namespace {

/// Midtones and darks in a light ground, 24 × 18 mm with 2 pixels a mm.
const reference::PictureMasses& scene() {
    static const reference::PictureMasses found = [] {
        grid::Picture p{48, 36, std::vector<std::uint8_t>(48 * 36 * 3, 240)};
        const auto fill = [&](int x0, int y0, int x1, int y1, std::uint8_t code) {
            for (int y = y0; y < y1; ++y)
                for (int x = x0; x < x1; ++x)
                    for (int c = 0; c < 3; ++c) p.at(x, y)[c] = code;
        };
        fill(4, 4, 20, 30, 130), fill(20, 10, 34, 24, 40), fill(36, 6, 44, 32, 120), fill(8, 12, 14, 22, 45);
        return reference::masses_in(p, {.sheet = {24, 18}, .squint = {.crumb_mm2 = 1, .simplify_mm = 0.5}});
    }();
    return found;
}

cli::MassesOptions options_of(const std::string& text) {
    cli::MassesOptions o;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line) && o.edits.size() < 12;) {
        const std::size_t gap = line.find(' ');
        const std::string name = line.substr(0, gap), value = gap == std::string::npos ? "" : line.substr(gap + 1);
        if (name == "--thresholds") o.thresholds = value;
        else if (name == "--sheet-mm") o.sheet_mm = value;
        else if (name == "--keep-light") o.keep_lights.push_back(value);
        else if (name == "--merge" || name == "--push" || name == "--name" || name == "--split") o.edits.emplace_back(name, value);
    }
    return o;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t n) {
    const std::string text(reinterpret_cast<const char*>(bytes), n);
    const reference::PictureMasses& s = scene();
    try {
        const reference::Looking how = cli::looking(options_of(text));
        const auto after = reference::edited(s.masses, s.map, 3, s.pixels_per_mm, how.edits);
        if (after.names.size() > after.masses.list.size()) std::abort();
    } catch (const grid::BadInput& bad) {
        if (bad.problems().empty() || bad.problems().front().where.empty()) std::abort();
    }
    return 0;
}
