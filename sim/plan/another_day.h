/// The same plan on another day: damper or drier air, a wetter or leaner brush, a slower or quicker hand.
///
/// What a painter can't hold to from one day to the next, and by how much (1 σ of a normal spread; from memory and common
/// practice, no survey is known): the room's relative humidity by 5 percent of humidity, the water of every wash, wetting,
/// mist, softening and dry brush by 15 percent, the pace of every act by 20. One number of each kind a day.
///
/// N days are a Latin hypercube: of each quantity one value from each Nth of its spread, the middle of it, in an order
/// that the plan's seed shuffles. So few days show the whole spread, and the same plan has the same days. Humidity is
/// rounded to 0.1 percent, factors to 0.001.
///
/// Source  McKay, Beckman & Conover (1979), Technometrics 21:239 (the hypercube).
/// Range   1 to 64 days, else refused (grid/within.h). What a day makes of a number is held to the plan's own range.
#pragma once
#include "plan/variants.h"

#include <vector>

namespace tidemark::plan {

struct Day {
    double humidity_more = 0; ///< of relative humidity, 0.05: five percent more
    double water = 1, pace = 1;
    bool operator==(const Day&) const = default;
};
constexpr double humidity_sigma = 0.05, water_sigma = 0.15, pace_sigma = 0.20;

/// The value of a normal spread below which the share `p` of it lies, in σ; 0 < p < 1.
double normal_quantile(double p);

std::vector<Day> days(std::uint64_t seed, int count);
/// The plan's values as they come out on that day.
Values on(const Day&, Values);

} // namespace tidemark::plan
