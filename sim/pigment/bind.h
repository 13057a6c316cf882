/// Drying fixes paint; rewetting frees part of it.
///
///   dried      a dry cell's loose pigment becomes bound; what went inside the pores stays apart as `inside`, and is
///              as fast as what is bound
///   new pass   when a wet brush lands on a dry cell that holds pigment, a share of what is bound goes into its water,
///                  (1 - staining) / (1 + r / 0.6),   r = gum / pigment of the cell
///              and the rest, with all that is inside, becomes the top one of the earlier passes
///
///   scrub      (1 - staining) of what is bound, in all passes, times a share that says how hard, comes loose at once;
///              what is inside stays
///
/// 1 - staining is what soaking and scrubbing take off; at the usual 0.6 g of gum a gram of pigment a brush that only
/// passes takes half of it (common practice), more gum holds more (from memory).
#pragma once
#include "sheet/sheet_state.h"
#include "sheet/stage.h"

namespace tidemark::pigment {

constexpr int most_passes = 8; ///< then the next one is merged into the top one
constexpr double usual_gum_share = 0.6;

double loosened_share(double staining, double gum_per_pigment); ///< staining 0 ... 1; gum from 0, g/g

/// Sets down what is afloat where there is no film and binds what lies loose on dry cells, on the whole sheet.
/// advance() does the same for awake tiles; this is for the end of a run, and for tiles put to sleep in between.
void bind_dried(sheet::SheetState&);

/// Closes the pass being painted at a dry cell. Does nothing where there is film, or nothing bound or inside.
void begin_pass(sheet::SheetState&, int i, int j);

/// A stiff brush scrubs cell (i, j), wet or dry: `share` 0 ... 1 (clamped) of what staining lets go comes loose.
void scrub_cell(sheet::SheetState&, int i, int j, double share);

} // namespace tidemark::pigment
