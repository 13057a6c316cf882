/// Where to begin the shape that holds the picture together, and how the hand goes through it.
///
/// The hand goes by how far it is from the start inside the shape (grid/geodesic.h), as a wash laid from a point does
/// (hand/paths.h). The start, when the painter gives none, is an end of the shape: begun there, one front goes through it;
/// begun in the middle, two fronts part at once and one waits. Of the ends from which the way to the farthest place is at
/// least three quarters of the longest there is (our choice), it is the uppermost (the wash runs down the board), and of
/// ends at much the same height the one on the side of the other hand (a right hand that goes from left to right does not
/// rest in wet paint): common practice; that height counts four times is our choice. The longest way is found by going to
/// the farthest place twice: exact where the shape branches like a tree, and near it elsewhere. Ends are the
/// farthest places of the branches, counted from either end of that way, from which no other goes on.
///
/// Branches: places equally far from the start, in bands as wide as a mark, fall into parts; a part that goes on from one
/// goes on with the same branch, and where one falls into several, or several run into one, new branches begin. What is
/// smaller than some marks, or soon at its end, is taken along with the branch before it: a light that a broad front
/// passes on both sides makes no branches. Their order is that of arms.h.
///
/// Range   see the members; refused beyond (grid/within.h). Without a shape, all is empty and 0.
#pragma once
#include "reference/connected.h"

#include <limits>

namespace tidemark::reference {

enum class Hand { right, left };

struct Ordering {
    std::optional<Place> start{};  ///< the nearest place in the shape is taken
    Hand hand = Hand::right;       ///< chooses the start, when none is given
    double cell_mm = 0.5;          ///< 0.01 ... 100; finer pixels are taken together: less light than that parts nothing
    double band_mm = 12;           ///< 0.1 ... 1000; a loaded brush's mark (common practice)
    double branch_mm2 = 300;       ///< 0 ... 1e6; smaller ones are taken along: some two marks (common practice)
    double branch_mm = 36;         ///< 0 ... 1e4; and shorter ones: three marks (common practice)
    double pace_cm2_s = 6;         ///< 0.001 ... 1000; of a wash (common practice)
    std::optional<double> open_s{}; ///< 0 ... 1e6; how long a wet edge lasts; none: nothing is too long
};

struct Branch {
    std::vector<int> from;         ///< branches that it goes on from, all painted earlier
    double area_mm2 = 0;
    double near_mm = 0, far_mm = 0; ///< from the start, inside the shape
    Place first, last;             ///< nearest and farthest from the start
    double begin_s = 0, end_s = 0; ///< painting nothing but this shape at that pace
    double waited_s = 0;           ///< longest that an edge it goes on from was left
    bool too_long = false;         ///< longer than open_s
};

struct Order {
    Place start;
    double area_mm2 = 0;
    double length_mm = 0;          ///< of the way from the start to the farthest place
    double minutes = 0;            ///< of painting
    std::vector<Place> way;        ///< from the start to the farthest place
    std::vector<Branch> branches;  ///< in the order of painting
    double longest_wait_s = 0;     ///< of all branches
    /// The same for a hand that goes back and forth between all arms, band by band, as a wash from a point does.
    double longest_wait_in_turn_s = 0;

    /// For drawing: cells that hold some of the shape, cell_mm wide (a whole number of pixels).
    int width = 0, height = 0;
    double cell_mm = 0;
    int cell_pixels = 1;           ///< of the masses, along a side
    std::vector<float> far_mm;     ///< from the start; infinite where there is no shape
    std::vector<int> branch_of;    ///< -1: no shape
    /// When the hand is there: its branch's begin_s, and as long as the branch takes up to there, nearest first. Infinite
    /// where there is no shape.
    std::vector<float> painted_s;
};

/// Through piece 0 of `shape`.
Order painting_order(const Masses&, const Connected& shape, double pixels_per_mm, const Ordering& = {});

} // namespace tidemark::reference
