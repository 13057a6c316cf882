/// What holds pigment in place, besides its weight.
///
///   uptake   water drawn into the sheet brings what floats in the lower half of the film: what is coarser than the
///            pores stays on the felt (loose), the rest goes in (inside); the upper half refills the lower one
///   capture  grains that jitter to a fibre stick, and the film beside it gets thinner of them, lower half -> bound:
///                bound = affinity c m,   dm/dt = 2D/(πm) (1 - m w/D)²,   m at most h/2π,  c that of the lower half
///            m is the depth that has been stripped: in still water 2 √(D t/π), diffusion to a wall that keeps what it
///            touches (Crank 1975); h/2π once the whole half is in its reach. Uptake, at w, draws fresh water against
///            the wall, and what comes with it is counted there: as w = S/2√t falls, m = √(D t)/(√π/2 + S/2√D), within
///            18 % of the closed form for every S. Time is read off what is bound already, as in fibre/uptake.h
///   soaking  under film, what is bound or inside comes back into the lower half at (1 - affinity)/150 s: the time in
///            which a fine grain jitters out of a pore 20 µm deep, d²/D, and gum dissolves (order of magnitude, from
///            memory). What was drawn in goes on being drawn in, so little comes of it in a wash that dries; under water
///            that has run into one it is part of what a bloom carries off
///   no film  what is afloat is set down (loose) where the film is thinner than 0.3 µm; gum likewise (bound)
///
/// Pores of the felt: log-normal about 0.55 µm, so that two thirds lie between 0.3 and 1 µm (from memory, sized
/// surfaces); what passes is the share of flocs smaller than the pore they meet. Affinity is the pigment's staining,
/// 0 ... 1: both say how readily a grain that touches fibre stays (from memory). The jitter of coarse grains is negligible
/// beside their weight; for the finest it is what the film leaves by when no water is drawn in.
#pragma once
#include "pigment/grain.h"

namespace tidemark::pigment {

constexpr double pore_m = 0.55e-6, pore_gsd = 1.8; ///< diameter, and its spread; from memory
constexpr double soak_time_s = 150;                ///< from memory
constexpr float no_film_m = 0.3e-6f;

double inside_share(const materials::Pigment&); ///< 0 ... 1
inline double affinity(const materials::Pigment& p) { return p.staining; }

/// Moves `amount` (0 ... from) between two masses so that their exact sum stays: what is moved is rounded to what
/// the fuller one can hold. Without this a large mass loses every small gift to rounding, always the same way.
inline void pass_on(float& from, float& to, float amount) {
    const float whole = from - (from - amount);
    const float step = (to + whole) - to;
    const float moved = step <= from ? step : 0.0f;
    from -= moved;
    to += moved;
}

} // namespace tidemark::pigment
