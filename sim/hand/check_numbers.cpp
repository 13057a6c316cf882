// What an act's numbers may be. Readers of plans allow less; this is for plans made in code.
#include "grid/within.h"
#include "hand/works_detail.h"

namespace tidemark::hand {

namespace {

using grid::Allowed;
using grid::within;

constexpr Allowed water{0, 5000, "g/m²", 1e-3}, film{0, 5, "mm", 1e-3}, pace{0.001, 1000, "cm²/s", 1e-4},
    mark{0.01, 1000, "mm", 1e-3}, drop{0, 5, "mL", 1e-6}, time{0, 3600, "s"}, share{0, 1}, count{0, 1e6};

struct Check {
    void operator()(const plan::Wet& a) const {
        within("water_kg_m2", a.water_kg_m2, water);
        within("pace_m2_s", a.pace_m2_s, pace);
    }
    void operator()(const plan::Wash& a) const {
        within("film_m", a.film_m, film);
        within("pace_m2_s", a.pace_m2_s, pace);
        within("refill_s", a.refill_s, time);
        if (a.brush)
            within("brush.release_m3", a.brush->release_m3, {1e-6, 1000, "mL", 1e-6});
    }
    void operator()(const plan::Charge& a) const {
        within("count", a.count, count);
        within("drop_m3", a.drop_m3, drop);
        within("drop_radius_m", a.drop_radius_m, mark);
        within("stroke_m", a.stroke_m, {0, 1000, "mm", 1e-3});
        within("seconds_per_drop", a.seconds_per_drop, time);
    }
    void operator()(const plan::Lift& a) const { within("pace_m2_s", a.pace_m2_s, pace); }
    void operator()(const plan::Spatter& a) const {
        within("count", a.count, count);
        within("smallest_m", a.smallest_m, mark);
        within("largest_m", a.largest_m, mark);
        within("seconds", a.seconds, time);
    }
    void operator()(const plan::Spray& a) const {
        within("water_kg_m2", a.water_kg_m2, water);
        within("droplet_m", a.droplet_m, {0.01, 10, "mm", 1e-3});
        within("seconds", a.seconds, time);
    }
    void operator()(const plan::Drybrush& a) const {
        within("film_m", a.film_m, film);
        within("share", a.share.value_or(1), share);
        within("pace_m2_s", a.pace_m2_s, pace);
    }
    void operator()(const plan::Soften& a) const {
        within("width_m", a.width_m, mark);
        within("water_kg_m2", a.water_kg_m2, water);
        within("speed_m_s", a.speed_m_s, {0.01, 1000, "cm/s", 1e-2});
    }
    void operator()(const plan::Reserve& a) const { within("pace_m2_s", a.pace_m2_s, pace); }
    void operator()(const plan::Uncover& a) const { within("pace_m2_s", a.pace_m2_s, pace); }
    void operator()(const plan::Body& a) const {
        within("paint_kg_m2", a.paint_kg_m2, water);
        within("pace_m2_s", a.pace_m2_s, pace);
    }
    void operator()(const plan::Tilt&) const {} // the film looks at the tilt (water/film.h)
    void operator()(const plan::Dry&) const {}  // and the air at the room (air/plate.h)
};

} // namespace

void check_numbers(const plan::Act& act) { std::visit(Check{}, act); }

} // namespace tidemark::hand
