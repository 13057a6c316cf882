/// The touches of single acts. Private to the room.
#pragma once
#include "hand/paths.h"
#include "hand/touch.h"

#include <cstdint>
#include <random>

namespace tidemark::hand {

/// Repeatable chance: the same seed gives the same numbers everywhere.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : next_(seed) {}
    std::size_t below(std::size_t n) { return next_() % n; }
    double unit() { return static_cast<double>(next_() >> 11) * 0x1p-53; } ///< [0, 1)
  private:
    std::mt19937_64 next_;
};

/// Touches along `cells` at an even pace.
Work along(const std::vector<Cell>& cells,
           const grid::Field<float>& coverage,
           double film_m,
           double pace_m2_s,
           double cell_area_m2);

/// Refuses an act's numbers out of range (touch.h).
void check_numbers(const plan::Act&);

Work wash(const plan::Plan&, const plan::Wash&, const sheet::Geometry&, double downhill_rad);
Work charge(const plan::Plan&, const plan::Charge&, const sheet::Geometry&, std::uint64_t seed);
Work spatter(const plan::Plan&, const plan::Spatter&, const sheet::SheetState&, std::uint64_t seed);
Work spray(const plan::Plan&, const plan::Spray&, const sheet::Geometry&, std::uint64_t seed);
Work drybrush(const plan::Plan&, const plan::Drybrush&, const sheet::SheetState&);
Work soften(const plan::Plan&, const plan::Soften&, const sheet::Geometry&);

} // namespace tidemark::hand
