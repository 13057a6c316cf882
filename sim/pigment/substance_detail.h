/// The halves of a pigment's or the gum's mass. Private to the room.
#pragma once
#include "sheet/sheet_state.h"

#include <type_traits>

namespace tidemark::pigment {

template <class Field> struct Pair { Field &lower, &upper; };

/// Substance k: pigments in order, the gum last.
template <class State> auto pair_of(State& s, std::size_t k) -> Pair<std::remove_reference_t<decltype((s.film_m))>> {
    if (k < s.pigments.size())
        return {s.pigments[k].afloat_lower, s.pigments[k].afloat_upper};
    return {s.gum_lower_kg_m2, s.gum_upper_kg_m2};
}

} // namespace tidemark::pigment
