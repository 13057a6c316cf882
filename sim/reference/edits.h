/// What a painter changes about the masses that squinting has found.
///
/// Edits are a list, done in its order: to undo one, leave it out and do the list again. A mass keeps its number, in what
/// comes out too: what is shown after a list is what answers when the list is made longer. What an edit makes anew gets
/// the next free number; what was joined shows the lowest number of its parts and answers to the others as well.
///
///   merge   two masses that touch become one; it takes the group of the larger, or of `a` when they are equal
///   push    a mass goes so many groups lighter (+) or darker (-), not beyond the last
///   name    a word of its own
///   split   along the straight line through two points, to either side of it; the side that holds the larger part keeps
///           the number. Each side becomes as many masses as it has parts that hang together.
///   keep    a light that was taken for a crumb: done by squint() (Squint::keep), before anything is merged
///
/// Errors: BadInput naming the edit ("--merge 3+9"), for a number that no mass has, masses that don't touch, a line that
/// misses, a push beyond the groups, a name that is taken or not one.
#pragma once
#include "reference/masses.h"

#include <span>
#include <string>
#include <variant>
#include <vector>

namespace tidemark::reference {

struct MergeMasses { std::string a, b; };              ///< numbers as printed, from 1, or names
struct PushMass { std::string mass; int by = 0; };     ///< groups, + lighter
struct NameMass { std::string mass, name; };
struct SplitMass { std::string mass; double x1_mm = 0, y1_mm = 0, x2_mm = 0, y2_mm = 0; };
struct Edit {
    std::variant<MergeMasses, PushMass, NameMass, SplitMass> what;
    std::string shown_as; ///< in messages, "--merge 3+9"
};

/// What an edit did to numbers.
struct Renumbered {
    std::string edit;      ///< as it was shown
    std::vector<int> made; ///< by a split, rising
    int stays = 0;         ///< the number that is shown of what was joined, 0: nothing was
    std::vector<int> gone; ///< the numbers of the others, rising
};

struct EditedMasses {
    Masses masses;                       ///< with the numbers that they had, or were given by edits
    std::vector<std::string> names;      ///< one a mass; empty: none
    std::vector<Renumbered> renumbered;  ///< in the list's order, those edits alone that made or joined any
};

/// `groups`: how many there are, for push. `map` as for find_masses.
EditedMasses edited(const Masses&, const ValueMap& map, int groups, double pixels_per_mm, std::span<const Edit>);

} // namespace tidemark::reference
