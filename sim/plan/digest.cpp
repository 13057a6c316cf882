#include "plan/digest.h"

namespace tidemark::plan {

// Structs with members that grid/members.h can't count, or that don't count here. A new member has to be named.

template <class A> void archive_of(A& a, const Wash& wash) {
    const auto& [area, mix, film_m, pace, travel, from_x, from_y, order, strokes, brush, refill_s, bead] = wash;
    a(area, mix, film_m, pace, travel, from_x, from_y, order, strokes, brush, refill_s, bead);
}

template <class A> void archive_of(A& a, const Soften& soften) {
    const auto& [area, along, width_m, water_kg_m2, speed_m_s] = soften;
    a(area, along, width_m, water_kg_m2, speed_m_s);
}

template <class A> void archive_of(A& a, const Dry& dry) {
    const auto& [area, until, longest_s, share, warm_air, air_temperature_K, air_m_s, blows] = dry;
    a(area, until, longest_s, share, warm_air, air_temperature_K, air_m_s, blows);
}

template <class A> void archive_of(A& a, const Step& step) {
    const auto& [name, line, start, act] = step;
    a(name, start, act);
}

template <class A> void archive_of(A& a, const Area& area) {
    const auto& [name, file, mask, form, soft_m] = area;
    a(name, mask, form, soft_m);
}

template <class A> void archive_of(A& a, const Plan& plan) {
    const auto& [file, width_m, height_m, paper, room, board, tilt_rad, tilt_direction_rad, seed, pigments, mixes, areas,
                 steps, wants, reference] = plan;
    a(width_m, height_m, paper, room, board, tilt_rad, tilt_direction_rad, seed, pigments, mixes, areas, steps);
}

grid::ArchiveDigest digest(const Plan& plan) {
    grid::ArchiveDigest all;
    all(plan);
    return all;
}

} // namespace tidemark::plan
