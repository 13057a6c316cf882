/// The groups as masks that any picture editor can change.
///
/// One a group, the darkest first: how much of each pixel the group covers, smoothed over 3 × 3 pixels so that a boundary
/// is soft. Codes of 0 ... 255 that add to 255 in every pixel: what rounding leaves goes to the largest remainders, of
/// equal ones to the darker group.
///
/// And back: a pixel is of the group whose mask covers it most; at an unchanged boundary that is the group it was of. A
/// painter who changes masks need not keep their sum: where two or more cover a pixel by half or more and by five quarters
/// in all, what she added counts, not what was there before, and of two such the lighter (a light that is to
/// be saved); what no mask covers goes to the group nearest to it, the darker of equally near ones.
#pragma once
#include "grid/picture.h"
#include "reference/groups.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace tidemark::reference {

std::vector<grid::GreyPicture> group_masks(const Groups&);

struct ByMasks {
    Groups groups;                                 ///< cuts between the groups' means, where these rise
    std::int64_t unclaimed = 0, claimed_twice = 0; ///< pixels
};

/// `masks`: 2 ... 7, of any size, the darkest first; `seen`: what they were made from, or else what the picture itself has,
/// of the map's size. Errors:
/// BadInput when no mask covers anything.
ByMasks groups_by_masks(const std::vector<grid::GreyPicture>& masks, const Groups& seen, const ValueMap&);

/// "darks.png", "midtones.png", "lights.png", or "group-0.png" ..., as squint writes them, the darkest first. `groups` 0: as many
/// as the folder holds all masks of; of two counts the larger. Errors: BadInput naming the folder or the file: none
/// there, not a picture, not of the sheet's proportions within 1 percent.
/// What is transparent in a mask covers nothing.
std::vector<grid::GreyPicture> read_group_masks(const std::filesystem::path& folder, int groups, double width_mm, double height_mm);

/// Where its masks are: in the folder, or in its "masks" when only that holds any. Another folder is given back as it is.
std::filesystem::path masks_folder(const std::filesystem::path&);

/// Whether the means of a picture's groups, the darkest first, rise by that much from each to the next (our choice). Those
/// without pixels (NaN) are passed over. Masks of another picture mostly don't.
constexpr double least_rise_lstar = 3;
bool rising(const std::vector<float>& mean_lstar);

/// The groups that masks are made from, kept beside them: from it, what a painter has changed is known. Greys 0, 36, 72 ...
/// by group; "made-from-3.png" of three.
std::string made_from_name(int groups);
grid::GreyPicture made_from(const Groups&);
/// `groups` as many as there are masks; none when it isn't there or holds something else. Group numbers alone.
std::optional<Groups> read_made_from(const std::filesystem::path& folder, int groups);

/// Whether a folder holds masks by these names that are not, byte for byte, what was made from the groups kept beside them.
bool masks_changed(const std::filesystem::path& folder);

} // namespace tidemark::reference
