/// How long the edge of a wash can be left before paint laid against it leaves a mark.
///
///   open_time({.paper = ..., .room = ..., .pigment = ...}).joins_s
///
/// Played on a patch of 30 × 30 mm with cells of 1 mm by the same Rehearsal as any plan. First a wash over its left half
/// alone: when has its edge (the last 2 mm) lost its sheen, and when its film, by sheet/stage.h? Then laps: the right half
/// laid with the same mix after a wait, and the dried sheet looked at. A lap is a line or a step: L*, by the medians of
/// columns, changes by `mark_lstar` or more within 2 mm, up to 8 mm from the seam, over and above what it changes the same
/// way in the 2 mm before or after. What goes on evenly over more is a soft passage: on wetted paper a wash runs out beyond
/// its edge, and lies double there. The longest wait without a lap is found by halving, to a sixteenth of the time that
/// the film lasts.
///
/// It is never longer than the film lasts: paint that comes to an edge without film stands against it, and in a real hand's
/// overlap lies double, which this patch, laid edge to edge, doesn't show. On dry paper a lap shows while there is film yet,
/// since the paper has drunk and pigment has settled; on wetted paper it seldom does (tests/behaviour/rehearsal_lap.cpp).
/// The second wash goes to the line where the first one was laid, not to where it has run since: a strong, thin wash on
/// wetted paper, run out by some 3 mm, dries there as a dark line however soon the hand comes; joins_s is then 0.
///
/// Range   film 20 to 1000 µm, water 0 to 1 kg/m², 0.001 to 20 % pigment by weight, marks of 0.1 to 100 L*, else refused
///         (grid/within.h); paper, room and pigment as read from the presets.
#pragma once
#include "plan/plan.h"

namespace tidemark::rehearsal {

struct OpenPatch {
    materials::Paper paper;
    materials::Room room;
    materials::Pigment pigment;
    plan::Board board = plan::Board::sealed;
    double film_m = 120e-6;
    double pigment_mass_fraction = 0.004; ///< of the mix; gum comes with it as in any plan
    double wetted_kg_m2 = 0;              ///< clear water on the front beforehand; 0: dry paper
    double wetted_before_s = 300;         ///< 0 ... 3600
    double mark_lstar = 3;                ///< from this on a dark line counts on the finished sheet (judge/edges.h)
};

/// Seconds from the end of the wash.
struct OpenTime {
    double sheen_s = 0; ///< half of the edge has lost its mirror sheen
    double film_s = 0;  ///< the edge has hardly any film left
    double joins_s = 0; ///< so long a second wash joins without a mark
};
OpenTime open_time(const OpenPatch&);

/// The mark that a second wash leaves which is laid after that wait, as above; L*.
double lap_lstar(const OpenPatch&, double wait_s);

} // namespace tidemark::rehearsal
