/// Masses: connected regions of one value group, pixels joined along their sides (not corners).
///
/// Numbered for the painter: lightest group first, in a group the largest first, of equal ones the one that comes
/// first reading from the top left. The numbers depend on the picture alone, and stay with their masses through all that
/// a painter changes about them (edits.h): then some are missing.
#pragma once
#include "reference/groups.h"

#include <cstdint>
#include <span>
#include <vector>

namespace tidemark::reference {

constexpr int border_reach_pixels = 2; ///< to either side: an edge in a photograph is some pixels wide

struct Border {
    int mass = 0;            ///< the neighbour
    std::int64_t length = 0; ///< pixel sides shared
    double contrast_lstar = 0; ///< mean |ΔL*| across them, between pixels `border_reach_pixels` apart from the border
};

struct Mass {
    int group = 0;
    std::int64_t pixels = 0;
    double mean_lstar = 0;
    double centre_x = 0, centre_y = 0; ///< mean of its pixels' places; a pixel's own place is x + 0.5, y + 0.5
    std::vector<Border> neighbours;    ///< by rising index
    int number = 0;                    ///< the painter's, from 1: what pictures and tables show and edits answer to
};

struct Masses {
    int width = 0, height = 0;
    std::vector<int> of; ///< one a pixel: index into list
    std::vector<Mass> list; ///< by rising number
    int at(int x, int y) const { return of[static_cast<std::size_t>(y) * width + x]; }
};

/// `map` is the value map that the groups were made from, or another of the same size.
Masses find_masses(const Groups&, const ValueMap& map);

/// One joining of merged(): a mass of the first Masses went into another of them (or what that had joined by then).
struct Joined {
    int mass = 0, into = 0;
    std::int64_t pixels = 0, length = 0; ///< of what went; of the border
    double contrast_lstar = 0;           ///< of the border
};

/// Masses under `smallest_pixels` join the neighbour across the weakest boundary, by contrast, of those that share a tenth
/// or more of their outline with it, and take its group; of equal ones the longer boundary, then the larger neighbour. The
/// smallest goes first; what touches in one group after that is one mass. Ends when all are large enough or one is left.
/// `stays`: one a mass, those with 1 are never taken for crumbs; empty: none. `record`: what went where, if given.
Masses merged(const Masses&, const ValueMap& map, std::int64_t smallest_pixels, const std::vector<std::uint8_t>& stays = {},
              std::vector<Joined>* record = nullptr);

/// The same again as far as a record goes: merged() without its last joinings, when it is cut short.
Masses merged_as(const Masses&, const ValueMap& map, std::span<const Joined> record);

/// The groups as the masses have them (after merging, a pixel may lie in another group than its own value says).
/// Thresholds are those of `before`; means and counts are new.
Groups groups_of(const Masses&, const ValueMap& map, const Groups& before);

} // namespace tidemark::reference
