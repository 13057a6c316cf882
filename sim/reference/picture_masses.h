/// The one way from a picture to its masses, for all that squint, draft, trace.
///
///   const PictureMasses found = masses_in(picture, {.width_mm = 380, .height_mm = 280, .squint = {.simplify_mm = 2}});
///
/// The picture fills the sheet. It is looked at with 4 pixels a mm, on sheets beyond 4 megapixels with fewer: nobody
/// paints the masses of a large sheet to a quarter of a millimetre. Masks that a painter has changed take the place of what
/// squinting finds (masks.h); her edits come after either.
///
/// Errors  BadInput as squint(), edited(). Range: sides of 1 to 1e4 mm, 2 to 7 groups, else refused (grid/within.h).
#pragma once
#include "grid/picture.h"
#include "reference/edits.h"
#include "reference/masks.h"
#include "reference/squint.h"

#include <optional>
#include <string>
#include <vector>

namespace tidemark::reference {

struct SheetSize {
    double width_mm = 0, height_mm = 0;
};

/// 280 mm along the longer side of a picture or part of one, the other to the whole mm. Errors: BadInput naming the picture
/// when that would be less than 30 mm.
SheetSize sheet_for(double width_pixels, double height_pixels, const std::string& picture_name);

double looked_at_pixels_per_mm(const SheetSize&);

struct Looking {
    SheetSize sheet;
    int groups = 3; ///< of masks: as many as there are
    Squint squint{.crumb_mm2 = 25, .simplify_mm = 1.5};
    std::vector<grid::GreyPicture> masks{}; ///< one a group, the darkest first; empty: as squinted
    std::optional<Groups> made_from{};      ///< what they were before they were changed, if that is known
    std::vector<Edit> edits{};
};

struct PictureMasses {
    SheetSize sheet;
    double pixels_per_mm = 0;
    ValueMap map;                   ///< of the picture, as large as `masses`
    SquintResult squinted;          ///< before masks and edits
    Masses masses;
    std::vector<std::string> names; ///< one a mass; empty: none
    std::vector<Renumbered> renumbered; ///< by edits
    Groups groups;
    std::vector<float> means_by_masks; ///< L*, one a mask, before edits; empty: no masks
    std::int64_t unclaimed = 0, claimed_twice = 0; ///< pixels, of masks
};

PictureMasses masses_in(const grid::Picture&, const Looking&);

/// The masses of the same picture before anything was simplified: where small lights are looked for.
Masses fine_masses(const PictureMasses&, const Squint&);

} // namespace tidemark::reference
