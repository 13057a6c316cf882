/// Many variants of one plan, each painted only from where it parts from the others.
///
/// Variants that share sheet, paper and room are one run until just before the first moment at which any of them would do
/// something else: an act with other values is about to begin, or a start that differs is within reach of a step. There the
/// run is copied, and each part goes on with its own values; so it goes on, down to single variants. Every variant ends
/// with the bytes of a run of its own: what is common was the same step by step (Rehearsal::starts_alike, halt_before).
///
/// Branches are played side by side, one thread each; while fewer of them than threads are there, each has more. What is
/// played does not depend on it. Memory: a sheet for each thread, and one for each branch point above a branch at work.
#pragma once
#include <functional>
#include <optional>
#include <vector>

#include "plan/variants.h"
#include "rehearsal/rehearsal.h"

namespace tidemark::rehearsal {

struct BranchOptions {
    Options run;
    std::vector<int> stop_after; ///< steps; none: until the sheet is dry
    int threads = 1;
    /// By variant, in place of stop_after; none: all alike. Who stops last must stand first: those that have not parted from
    /// it by its end are its run.
    std::vector<std::vector<int>> stop_after_of{};
};

struct BranchProgress {
    int finished = 0, of = 0;
    double left_s = 0;           ///< of the painter's time; 0: not known yet
};

/// Seconds of playing: those of one branch with two threads count as they pass. And the work in them, which is the same on
/// any machine, busy or not: cells with film, over all steps of the film.
struct BranchTimes {
    double all_s = 0, all_cells = 0;           ///< every piece once
    double common_s = 0;                       ///< what all variants share
    std::vector<double> whole_s, whole_cells;  ///< by variant: from its start, what it shares included
};

/// `finished` has each variant's run when it is over, from several threads at once. `tell` is called by the calling thread
/// some five times a second: false stops it all, and nothing is returned then. `variants` are of `base`, each its own list
/// of values. Errors: as Rehearsal's; the first one ends it all.
std::optional<BranchTimes> play_branches(const plan::Plan& base, const std::vector<plan::Values>& variants, const BranchOptions&,
                                         const std::function<void(int variant, const Rehearsal&)>& finished,
                                         const std::function<bool(const BranchProgress&)>& tell);

} // namespace tidemark::rehearsal
