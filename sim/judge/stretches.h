/// The outline of a wash cut where its edge changes: "along the top soft, 6 mm, for 80 mm; hard on the left for 120".
///
/// Every place of an outline (one a millimetre, its profile averaged over EdgeRules::window_mm) is given what it
/// costs to call it hard, firm, soft or lost, with a rim or without: how far, in octaves, its width and contrast lie
/// from that word's limits (0 within them), at most two; a rim likewise, as a share of the least tidemark. Runs of
/// one word are those that cost least, each cut costing `change` and no run shorter than `least_mm` (an exact
/// minimum: cut_detail.h). So a width that wavers about a limit makes no stretches, and one that is an octave off for
/// 6 mm does. Each run is then measured as one (the mean of its profiles, each laid with its edge at 0), without
/// places whose window reaches over a cut; neighbours that come out alike are joined.
///
/// Range   cuts are right to half a window and a place, 3 mm. A width below two cells can't be told from another:
/// there
///         hard and firm are not cut apart. A piece of outline shorter than `least_mm` is a corner, unless there is
///         no longer one with that neighbour. The limits are this program's own.
#pragma once
#include <string>
#include <vector>

namespace tidemark::judge {

struct StretchRules {
    double least_mm = 6; ///< more than a window, so that a stretch has a place of its own
    double change = 6;   ///< octave-millimetres: what a cut must save
};

struct Place_mm {
    double x_mm = 0, y_mm = 0;
};

/// Of one outline, with one neighbour and of one kind.
struct Stretch {
    std::string word; ///< hard, firm, soft or lost
    bool tidemark = false;
    double width_mm = 0; ///< 10 to 90 %; NaN: less contrast than EdgeRules::lost_below_L, or none
    double delta_L = 0, inside_L = 0, outside_L = 0;
    double rim_L = 0;     ///< ≥ 0
    double rim_mm = 0;    ///< how wide the rim is, at half its height
    double shift_mm = 0;  ///< how far outside the mask's outline the edge came to lie; NaN with the width
    double surely_mm = 0; ///< three quarters of it are shifted as far or farther; NaN with the width
    double length_mm = 0;
    double share = 0;          ///< of the area's whole outline, 0 ... 1; the sheet's border is no outline
    std::string side;          ///< of the area: top, top right, right ...; "all round" when it faces every way
    Place_mm from, middle, to; ///< along the outline
    std::vector<Place_mm> line; ///< all of it, a place a millimetre
    std::string met;           ///< stage of the paper just before the wash came, most of it; empty: not known
    double met_share = 0;      ///< ... and how much of it, 0 ... 1
    double laid_min = 0; ///< when the hand laid it, on the plan's clock: the median of its cells; NaN: not known
    double laid_from_min = 0, laid_to_min = 0; ///< first and last
    std::string why; ///< for a painter: laid when, on what, beside what, and what came later
};

} // namespace tidemark::judge
