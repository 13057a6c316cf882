/// A first plan from any picture: something to run at once and then make one's own.
///
/// The picture is squinted at and grouped; the plan paints it in as many washes as there are groups, light to dark:
/// a wet-into-wet wash over all but the saved lights, then on dry paper the midtones together with the darks as one
/// connected wash, then the darks. Each wash lies over the ones before it, so its strength is what its group still
/// lacks (draft_mixes.h); hues are one of four simple mixes by the group's mean colour. Values that no paint reaches are
/// moved into the sheet's key first (key.h). The midtones and darks are painted from the start that order.h proposes,
/// through the shape. Lights too small to be painted round (lights_to_save.h) are set in body colour at the end. What edge
/// is wanted is what the picture shows: the 10-90 % width of each wash's outline (edge_width.h), in the judge's words.
///
/// The longest side of the sheet is 280 mm, the other follows the picture, to the whole millimetre; masks are drawn
/// at 4 pixels a mm and the reference at 1 to 4, so that all agree with the sheet exactly.
#pragma once
#include "grid/files.h"
#include "grid/picture.h"
#include "reference/draft_mixes.h"
#include "reference/connected.h"
#include "reference/groups.h"
#include "reference/key.h"
#include "reference/squint.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace tidemark::reference {

struct DraftOptions {
    int groups = 3; ///< 2 ... 7
    Squint squint{.crumb_mm2 = 20, .simplify_mm = 1}; ///< finer than a first look: the wash rounds what it can't hold
};

/// One wash of the draft.
struct DraftPass {
    std::string name;          ///< "first wash"; its area is called the same with a dash
    grid::GreyPicture mask;    ///< 1 where it is laid
    double share = 0;          ///< 0 ... 1 of the sheet
    double wanted_lstar = 0;   ///< mean of its own group in the picture
    double dries_to_lstar = 0; ///< by the strength table, all washes so far
    const DraftMix* mix = nullptr;
    double load_g_m2 = 0; ///< laid by this wash
    double film_um = 100;
    bool into_wet = false;
    int group = 0;        ///< the lightest that it is laid on
    std::optional<Place> start; ///< of the connected wash: the hand goes from there through the shape
    std::string edge;           ///< "firm": of its outline in the picture, by its median width; empty: nothing tells
    double edge_mm = 0;
};

struct Draft {
    int width_mm = 0, height_mm = 0;
    grid::Picture reference;
    std::vector<DraftPass> passes; ///< at least one
    double saved_share = 0;        ///< 0 ... 1 of the sheet, left as paper
    Key key;                       ///< what the reference's values were moved by
    double hangs_together = 0;     ///< share of the midtones and darks in their largest piece
    double connected_minutes = 0;  ///< of painting that piece
    std::optional<grid::GreyPicture> small_lights; ///< too small to be painted round: body colour at the end
    int small_light_count = 0;
    int groups = 0;                ///< for the plan's [reference]: as asked for
    std::string plan_toml;
};

/// `picture_name` goes into a comment and into messages. Groups without pixels are left out; a flat picture is one
/// wash. Errors: BadInput for a picture more than 9 times as long as wide (its sheet would be under 30 mm).
Draft draft_plan(const grid::Picture&, const std::string& picture_name, const DraftOptions& = {});

/// Reads the picture, a JPEG no larger than the masks need it, and writes plan.toml, reference.png and masks/*.png; the
/// caller commits. Returns what there is to say of the picture's file, mostly nothing. Errors: BadInput.
std::string write_draft(const std::filesystem::path& picture, grid::OutputFolder& out, const DraftOptions& = {});

} // namespace tidemark::reference
