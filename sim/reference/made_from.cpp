#include "reference/masks.h"

#include "grid/files.h"
#include "grid/problem.h"

#include <cmath>

namespace tidemark::reference {

namespace {

constexpr int grey_step = 36; // seven groups end at 216

bool there(const std::filesystem::path& file) {
    std::error_code unreadable; // then it counts as not there
    return std::filesystem::exists(file, unreadable);
}

} // namespace

std::string made_from_name(int groups) { return "made-from-" + std::to_string(groups) + ".png"; }

grid::GreyPicture made_from(const Groups& g) {
    grid::GreyPicture p{g.width, g.height, std::vector<float>(g.group.size())};
    for (std::size_t k = 0; k < p.value.size(); ++k)
        p.value[k] = static_cast<float>(grey_step * g.group[k]) / 255.0f;
    return p;
}

std::optional<Groups> read_made_from(const std::filesystem::path& folder, int groups) {
    const std::filesystem::path file = folder / made_from_name(groups);
    if (!there(file))
        return std::nullopt;
    try {
        const grid::GreyPicture p = grid::read_grey(file);
        Groups g;
        g.count = groups, g.width = p.width, g.height = p.height;
        for (const float v : p.value) {
            const int code = static_cast<int>(std::lround(255 * v));
            if (code % grey_step != 0 || code / grey_step >= groups)
                return std::nullopt;
            g.group.push_back(static_cast<std::uint8_t>(code / grey_step));
        }
        return g;
    } catch (const grid::BadInput&) { // then nothing is known of what the masks were made from
        return std::nullopt;
    }
}

bool masks_changed(const std::filesystem::path& folder) {
    for (int count = min_groups; count <= max_groups; ++count) {
        std::vector<std::filesystem::path> files;
        for (int k = 0; k < count; ++k)
            if (const auto file = folder / (group_word(k, count) + ".png"); there(file))
                files.push_back(file);
        if (static_cast<int>(files.size()) < count && !there(folder / made_from_name(count)))
            continue; // masks of another count
        const std::optional<Groups> from = read_made_from(folder, count);
        // Two or four groups and more are named like the first ones of the next count.
        const bool others = count != 3 && (there(folder / made_from_name(count + 1)) || there(folder / (group_word(count == 2 ? 1 : count, count + 1) + ".png")));
        if (!from && others)
            continue;
        if (!from)
            return true;
        const std::vector<grid::GreyPicture> masks = group_masks(*from);
        for (int k = 0; k < count; ++k)
            if (const auto file = folder / (group_word(k, count) + ".png"); there(file)) {
                const std::vector<std::uint8_t> made = grid::png_bytes(masks[k]);
                if (grid::read_text(file) != std::string(made.begin(), made.end()))
                    return true;
            }
    }
    return false;
}

} // namespace tidemark::reference
