/// The lights of a picture, and how each is kept: painted round, reserved, or lifted out again.
///
/// Watercolour has no white but the paper's, so lights are thought of first (common practice). Looked at are the light
/// masses, and small lights within darker masses, which were there before crumbs were merged: masses of the finer map
/// that are lighter than all their neighbours and lie for the greater part in a mass of a darker group. Then
///
///   lift     the edge is soft, and the light not much lighter than what is round it: out of the damp wash. What is
///            lifted never comes back to white paper, hence the second condition.
///   reserve  narrower than the brush's mark everywhere: resist, or body colour at the end
///   round    else: paint round it
///
/// The most striking come first: contrast times the root of the area (our choice). Defaults are common practice.
///
/// Range   see the members; refused beyond (grid/within.h).
#pragma once
#include "reference/connected.h"

#include <optional>
#include <string>
#include <vector>

namespace tidemark::reference {

enum class Keep { round, reserve, lift };
const char* word(Keep); ///< "paint round", "reserve", "lift"

struct Saving {
    std::optional<int> light_from{}; ///< masses of this group and lighter ones are light; none: the lightest there is
    double mark_mm = 3;              ///< 0 ... 100; the narrowest light that a brush can be led round
    double soft_mm = 3;              ///< 0 ... 100; edges from this 10-90 % width on are soft, as on the finished sheet
    double lift_lstar = 25;          ///< 0 ... 100; most contrast that lifting makes
    double smallest_mm2 = 0.5;       ///< 0 ... 1e6; smaller ones are passed over
    double reach_mm = 5;             ///< 0.1 ... 100; how far to either side of its boundary an edge is looked for
    int most = 20;                   ///< lights in the list
};

struct Light {
    Keep keep = Keep::round;
    bool fine = false;         ///< `mass` is one of the finer map
    int mass = 0;
    Place at;                  ///< the middle of the largest circle inside it
    double area_mm2 = 0;
    double width_mm = 0;       ///< that circle's diameter (inscribed.h)
    double contrast_lstar = 0; ///< its mean against its neighbours' means, by length of border
    double edge_mm = 0;        ///< 10-90 % width of its edge (edge_width.h); NaN where the picture shows none
    std::string reason;        ///< a sentence for the painter
};

/// `map` is the picture's value map, before any blur; `fine` the masses before merging, of the same size.
std::vector<Light> lights_to_save(const Masses& masses, const Masses& fine, const ValueMap& map, double pixels_per_mm,
                                  const Saving& = {});

} // namespace tidemark::reference
