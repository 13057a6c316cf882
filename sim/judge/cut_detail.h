/// A row of places cut into runs of one kind each. Private to the room.
///
///   Σ over places of cost(kind of its run) + `change` for every cut  is least;  no run is shorter than `least`
///   places
///
/// A Potts functional (Potts 1952; in one dimension Winkler & Liebscher 2002), minimised exactly by dynamic
/// programming, so the answer doesn't depend on where one begins to look, and a stray place costs less than the two
/// cuts round it. A row that comes back to its beginning is cut twice: first as it lies, then begun anew at the cut
/// farthest from the seam; ends of one kind are joined.
#pragma once
#include <array>
#include <vector>

namespace tidemark::judge {

constexpr int cut_kinds = 8;
using Costs = std::array<double, cut_kinds>; ///< of a place, for each kind; ≥ 0

struct Run {
    int begin = 0, count = 0; ///< places begin, begin + 1 ...; past the last one a closed row goes on at 0
    int kind = 0;
};
/// In order along the row; of equally good answers the kind of lower number. Rows shorter than 2 · least are one run.
std::vector<Run> cut_into_runs(const std::vector<Costs>&, double change, int least, bool closed);

} // namespace tidemark::judge
