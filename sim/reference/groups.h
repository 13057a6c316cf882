/// A value map sorted into a few groups of values: darks, midtones, lights (three by default), up to seven. Group 0 is the
/// darkest, everywhere.
///
/// group_values() finds the cuts by Otsu's rule (otsu.h) on a histogram in steps of 0.1 L*, finer than the steps of
/// an 8-bit picture (0.27 L* and more), so no two of its greys share a level. group_with() applies the same cuts to
/// another map, such as the dried sheet's, so that both are read by one measure.
#pragma once
#include "reference/value_map.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace tidemark::reference {

constexpr int min_groups = 2, max_groups = 7;

struct Groups {
    int count = 0;
    std::vector<float> thresholds; ///< count - 1, rising L*; group k: thresholds[k-1] ≤ L* < thresholds[k]
    int width = 0, height = 0;
    std::vector<std::uint8_t> group;  ///< one a pixel, 0 the darkest
    std::vector<float> mean_lstar;    ///< one a group; NaN for a group without pixels (group_with() only)
    std::vector<std::int64_t> pixels; ///< one a group
    std::uint8_t at(int x, int y) const { return group[static_cast<std::size_t>(y) * width + x]; }
};

/// `count` 2 ... 7; outside it is an InternalError: the readers of plans and of the command line check it. A picture
/// with fewer distinct values than that gets one group a value: a flat picture is one group.
///
/// A threshold lies halfway between the lightest value of one group and the darkest of the next: all of them cut the
/// map alike, and the middle gives a dried sheet the same room for error on both sides.
Groups group_values(const ValueMap&, int count);
Groups group_with(const ValueMap&, std::span<const float> thresholds);

/// Of three "darks", "midtones", "lights"; of two "darks", "lights"; else "group-0" (the darkest), "group-1" ...: in tables,
/// messages and names of files.
std::string group_word(int group, int count);

} // namespace tidemark::reference
