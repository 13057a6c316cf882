/// In which order a hand paints the arms of a shape, and how long the edges wait that it leaves meanwhile.
///
/// An arm goes on from one or more others (`from`, of lower numbers; the first one from none): it can be begun when all
/// of them are painted. Where a shape splits, an arm is painted to its end, with all that goes on from it, before the
/// next one; where two arms meet again (round a light), what lies behind is painted after both. Of what could be begun
/// next, the shortest comes first: the hand is never long away from the others. On a tree, among all orders that finish an
/// arm before the next, that keeps the longest wait least, since the largest arm, last, is waited for by none, and the sum
/// of all waits too. What an arm holds is what can be reached through it alone (its dominator tree); arms that meet
/// again count as one against others.
#pragma once
#include <vector>

namespace tidemark::reference {

struct Arm {
    std::vector<int> from;
    double area = 0; ///< any unit
};

/// Numbers of the arms in the order of painting.
std::vector<int> shortest_first(const std::vector<Arm>&);

/// For each arm, the longest that an edge it goes on from has waited when it is begun, as area painted since. 0 for the
/// first one. `order`: each arm once, none before those it comes from.
std::vector<double> waited(const std::vector<Arm>&, const std::vector<int>& order);

} // namespace tidemark::reference
