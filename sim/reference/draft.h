/// A first plan from any picture: something to run at once and then make one's own.
///
/// The masses are those of picture_masses.h, as squint shows them, with all that a painter has changed. The plan paints
/// their groups in as many washes, light to dark: a wet-into-wet wash over all but the saved lights, then on dry paper the
/// midtones together with the darks as one connected wash, then the darks. Each wash lies over the ones before it, so its
/// strength is what its group still lacks (draft_mixes.h); hues are one of four simple mixes by the group's mean colour.
/// Values that no paint reaches are moved into the sheet's key first (key.h). The midtones and darks are painted from the
/// start that order.h proposes, through the shape. Lights too small to be painted round (lights_to_save.h) are set in body
/// colour at the end.
///
/// Edges  what edge is wanted is what the picture shows: the 10-90 % width of each wash's outline (edge_width.h), in the
///        judge's words. A wash whose outline is soft along three quarters of it is laid while the paper is moist; a light
///        whose own rim is soft, where most are not, has it softened with a clean brush right after the wash (common practice).
/// Water  the film of a wash is as deep as its edge has to wait for the hand (order.h), the shallowest of draft_films_um
///        that joins for so long, and lean in shapes narrower than two marks of a small brush, where a puddle would bulge
///        (common practice). Wetting both faces brings what soaks the sheet and what it gives to the air until the hand has
///        laid the first wash.
///
/// Masks are drawn as finely as the masses are looked at and the reference at 1 to 4 pixels a mm.
#pragma once
#include "grid/files.h"
#include "grid/picture.h"
#include "reference/draft_mixes.h"
#include "reference/connected.h"
#include "reference/groups.h"
#include "reference/key.h"
#include "reference/picture_masses.h"

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tidemark::reference {

/// How long the edge of a wash on dry paper joins, seconds, by its film.
using OpenFor = std::function<double(double film_um)>;
constexpr double draft_films_um[] = {80, 100, 120, 150, 200}; ///< 60 lean, 100 a good wash, 200 juicy (common practice)

/// What a rehearsal of the draft found of one wash, minutes on the plan's clock; NaN: not reached.
struct PassTimes {
    double from_min = 0, moist_min = 0, damp_min = 0, dry_min = 0;
};

/// What is softened of a wash's outline.
struct SoftPart {
    grid::GreyPicture beside; ///< the lights along which it is soft
    double width_mm = 0;      ///< of the strip
    double share = 0;         ///< 0 ... 1 of the outline
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
    bool into_moist = false;       ///< laid when the wash before it is moist: its outline is soft along most of it
    std::optional<SoftPart> soft;  ///< of an outline that is not
    double left_s = 0;             ///< longest that the hand leaves an edge of it
    bool too_long = false;         ///< ... and no film waits so long
    std::optional<PassTimes> times;
};

struct Draft {
    double width_mm = 0, height_mm = 0;
    grid::Picture reference;
    std::vector<DraftPass> passes; ///< at least one
    double saved_share = 0;        ///< 0 ... 1 of the sheet, left as paper
    Key key;                       ///< what the reference's values were moved by
    double hangs_together = 0;     ///< share of the midtones and darks in their largest piece
    double connected_minutes = 0;  ///< of painting that piece
    std::optional<grid::GreyPicture> small_lights; ///< too small to be painted round: body colour at the end
    int small_light_count = 0;
    std::vector<std::pair<std::string, grid::GreyPicture>> named; ///< masses that the painter has named
    int groups = 0;                ///< for the plan's [reference]
    double wet_g_m2 = 0;           ///< clear water for both faces
    std::string picture_name;
    std::string plan_toml;
};

/// `seen` is what masses_in(picture, how) found. `picture_name` goes into a comment and into messages. Groups without
/// pixels are left out; a flat picture is one wash. Without `open_for` a wash gets the second of the films.
Draft draft_plan(const grid::Picture&, const PictureMasses& seen, const Looking& how, const std::string& picture_name,
                 const OpenFor& open_for = {});
/// The same, its masses found with a finer look than squint takes by itself, on the usual sheet (sheet_for()).
Draft draft_plan(const grid::Picture&, const std::string& picture_name);

/// As large as a plan's reference is for a sheet of that size: 1 to 4 pixels a mm.
grid::Picture sized_as_reference(const grid::Picture&, const SheetSize&);

/// With the minutes that a rehearsal of it has shown: one for each of its passes.
void tell_times(Draft&, const std::vector<PassTimes>&);

/// plan.toml, reference.png and masks/*.png; the caller commits.
void write_draft(const Draft&, grid::OutputFolder&);

/// How the text of a plan made from a picture begins: sheet, paper, board and room, and the reference beside it.
std::string sheet_text(const SheetSize&, int groups);

} // namespace tidemark::reference
