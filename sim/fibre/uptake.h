/// The front of the sheet drinks from the film.
///
///   I(t + dt)² = I² + S² dt      (I = S √t, whatever t the water so far took; exact for any dt)
///
/// I is the water, as a depth, that came in through the front: what the front half holds above the room's
/// equilibrium, and as much again of what the back half has, for that has passed through. Water beyond that in the
/// back half came from behind and doesn't slow the front. No more is drawn than the film has, nor than the front half
/// can hold.
///
/// Range   water that capillarity draws, until the front half is full: Philip's first term, good while weight and the
///         sheet's far side play no part (a sheet is a millimetre thick; water climbs metres in its pores). S 0 to
///         3e-4 m/√s, checked in advance.h.
/// Source  Philip (1957), first term; the cut at capacity, and reading I off the two halves, are ours.
#pragma once
#include <cstdint>

namespace tidemark::fibre {

struct UptakeStep {
    double sorptivity2_dt_m2 = 0; ///< S² dt
    double equilibrium_kg_m2 = 0; ///< of half a sheet with the room
    double capacity_kg_m2 = 0;    ///< of half a sheet
};

/// One stretch of a row. `drawn` becomes the depth drawn, 0 where there is no film or the paper is reserved; `moved`
/// the same in kg/m² and double, as the stored film changed.
void uptake_stretch(int n,
                    const UptakeStep&,
                    const std::uint8_t* surface,
                    float* film,
                    float* film_low,
                    double* front,
                    const double* back,
                    float* drawn,
                    double* moved);

} // namespace tidemark::fibre
