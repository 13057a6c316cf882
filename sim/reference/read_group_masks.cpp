#include "reference/masks.h"

#include "grid/problem.h"

#include <cmath>
#include <fmt/format.h>
#include <string>

namespace tidemark::reference {

namespace {

std::filesystem::path file_of(const std::filesystem::path& folder, int group, int count) {
    return folder / (group_word(group, count) + ".png");
}

bool has_all(const std::filesystem::path& folder, int count) {
    std::error_code unreadable; // then reading says so
    for (int k = 0; k < count; ++k)
        if (!std::filesystem::exists(file_of(folder, k, count), unreadable))
            return false;
    return true;
}

int count_in(const std::filesystem::path& folder) {
    for (int count = max_groups; count >= min_groups; --count)
        if (has_all(folder, count))
            return count;
    return 0;
}

int count_there(const std::filesystem::path& folder) {
    if (const int count = count_in(folder))
        return count;
    throw grid::BadInput(folder.string(), "no masks of a squint are here",
                         "a folder with darks.png, midtones.png and lights.png, or group-0.png, group-1.png and so on");
}

} // namespace

std::filesystem::path masks_folder(const std::filesystem::path& folder) {
    return count_in(folder) == 0 && count_in(folder / "masks") > 0 ? folder / "masks" : folder;
}

std::vector<grid::GreyPicture> read_group_masks(const std::filesystem::path& folder, int groups, double width_mm, double height_mm) {
    const int count = groups > 0 ? groups : count_there(folder);
    if (groups > 0 && !has_all(folder, groups))
        throw grid::BadInput(folder.string(), fmt::format("not all masks of {} groups are here", groups), fmt::format("{}.png to {}.png", group_word(0, groups), group_word(groups - 1, groups)));
    std::vector<grid::GreyPicture> masks;
    for (int k = 0; k < count; ++k) {
        const std::filesystem::path file = file_of(folder, k, count);
        masks.push_back(grid::read_grey(file, {}, {.under = 0}));
        const double aspect = static_cast<double>(masks.back().width) / masks.back().height, sheet = width_mm / height_mm;
        if (std::fabs(aspect / sheet - 1) > 0.01)
            throw grid::BadInput(file.string(), fmt::format("the mask is {} x {} pixels, {:.4g} : 1", masks.back().width, masks.back().height, aspect),
                                 fmt::format("the sheet's {:.4g} : 1, within 1 percent", sheet));
    }
    return masks;
}

} // namespace tidemark::reference
