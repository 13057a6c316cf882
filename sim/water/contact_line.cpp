#include "water/contact_line.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "grid/rows.h"

namespace tidemark::water {
namespace {

using sheet::SheetState;
using sheet::Surface;

constexpr float open_way = 1.0f;     // metres: no limit
constexpr float film_present_m = 1e-6f;
constexpr double fibre_roughness = 1.29, fibre_tops = 0.3; // of the felt (contact_line.h)

/// What the rule needs of the paper, computed once.
struct Rule {
    double bound_kg_m2, room_kg_m2; ///< water bound by the fibres; room for free water above it
    double creep_from; ///< saturation_creep()
    double capillary_length_m, theta_a, cos_theta_r, weight; ///< weight: ρ g sin α / γ, 1/m²
    int reach;                      ///< cells from the edge to where a puddle has its full depth
    int step_i, step_j;             ///< one cell uphill
    double step_m;
    bool tilted;
};

Rule rule_for(const SheetState& s, const FilmParams& p) {
    Rule r{};
    r.bound_kg_m2 = std::min(sheet::half_equilibrium_kg_m2(s.paper, 1.0), 0.9 * sheet::half_capacity_kg_m2(s.paper));
    r.room_kg_m2 = sheet::half_capacity_kg_m2(s.paper) - r.bound_kg_m2;
    r.capillary_length_m = p.capillary_length_m();
    r.reach = std::max(1, static_cast<int>(std::lround(3 * r.capillary_length_m / s.geometry.cell_m)));
    r.theta_a = p.theta_advancing_rad;
    r.creep_from = saturation_creep(r.theta_a);
    r.cos_theta_r = std::cos(p.theta_receding_rad);
    r.tilted = s.tilt_rad != 0;
    r.weight = 1000.0 * p.gravity_m_s2 * std::sin(s.tilt_rad) / p.gamma_N_m;
    r.step_i = -static_cast<int>(std::lround(std::cos(s.tilt_direction_rad)));
    r.step_j = -static_cast<int>(std::lround(std::sin(s.tilt_direction_rad)));
    r.step_m = s.geometry.cell_m * std::sqrt(static_cast<double>(r.step_i * r.step_i + r.step_j * r.step_j));
    return r;
}

double saturation(const Rule& r, double front_kg_m2) {
    return std::clamp((front_kg_m2 - r.bound_kg_m2) / r.room_kg_m2, 0.0, 1.0);
}

/// Section of the film standing uphill of cell (i, j), m², up to the first cell without film.
double section_uphill(const SheetState& s, const Rule& r, int i, int j) {
    double sum = 0;
    for (i += r.step_i, j += r.step_j; s.inside(i, j) && s.film_m(i, j) > film_present_m; i += r.step_i, j += r.step_j)
        sum += s.film_m(i, j) * r.step_m;
    return sum;
}

float deepest_neighbour(const SheetState& s, int i, int j) {
    return std::max(std::max(s.film_m(i - 1, j), s.film_m(i + 1, j)), std::max(s.film_m(i, j - 1), s.film_m(i, j + 1)));
}

/// Depth of the puddle beside a dry cell. At its pinned edge a puddle is a cell's slope deep, whatever it holds; it rises
/// as 1 - exp(-x/l_c), so its depth is looked for within 3 l_c (95 %), straight into the film.
float puddle_beside(const SheetState& s, const Rule& r, int i, int j) {
    float deepest = 0;
    for (const auto& [di, dj] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}})
        for (int n = 1; n <= r.reach && s.inside(i + n * di, j + n * dj); ++n) {
            const float h = s.film_m(i + n * di, j + n * dj);
            if (h <= film_present_m) break;
            deepest = std::max(deepest, h);
        }
    return deepest;
}

/// The way into a cell that no brush has wetted.
float way_into(const SheetState& s, const FilmParams& p, const Rule& r, int i, int j) {
    const double full = saturation(r, s.front_kg_m2(i, j));
    if (full >= saturation_open) return open_way;
    const float beside = deepest_neighbour(s, i, j);
    if (beside > film_present_m) {
        const double theta = r.theta_a * (1 - full / saturation_open);
        if (puddle_beside(s, r, i, j) > 2 * r.capillary_length_m * std::sin(0.5 * theta)) return open_way;
        if (r.tilted && r.weight * section_uphill(s, r, i, j) > r.cos_theta_r - std::cos(theta)) return open_way;
    }
    const double creep = (full - r.creep_from) / (saturation_open - r.creep_from);
    return creep > 0 ? static_cast<float>(creep * p.held_m) : 0.0f;
}

/// Whether all of these cells are wetted and have film: then every way is open, and none is new.
bool all_open(const SheetState& s, int j, int begin, int end) {
    const std::uint8_t* surface = s.surface.row(j);
    const float* film = s.film_m.row(j);
    int open = 1;
    for (int i = begin; i < end; ++i)
        open &= (surface[i] == static_cast<std::uint8_t>(Surface::wetted)) & (film[i] > 0);
    return open != 0;
}

void set_ways_of(SheetState& s, const FilmParams& p, const Rule& rule, int j, grid::Span span, sheet::Field<float>& way,
                 char& advancing) {
    for (int i = span.begin; i < span.end; ++i) {
        auto& state = s.surface(i, j);
        if (!s.inside(i, j) || state == static_cast<std::uint8_t>(Surface::reserved)) {
            way(i, j) = 0;
            continue;
        }
        if (!p.contact_line) {
            way(i, j) = open_way;
            advancing |= s.film_m(i, j) == 0 && deepest_neighbour(s, i, j) > 0;
            continue;
        }
        const bool film = s.film_m(i, j) > film_present_m;
        if (state == static_cast<std::uint8_t>(Surface::wetted) && s.film_m(i, j) == 0)
            state = static_cast<std::uint8_t>(Surface::dry);
        if (state == static_cast<std::uint8_t>(Surface::wetted)) {
            way(i, j) = open_way;
            continue;
        }
        way(i, j) = way_into(s, p, rule, i, j);
        if (way(i, j) < open_way) continue;
        if (film) state = static_cast<std::uint8_t>(Surface::wetted);
        else if (deepest_neighbour(s, i, j) > film_present_m) advancing = 1;
    }
}

} // namespace

double saturation_creep(double theta_advancing_rad) {
    const double wicks = std::acos((1 - fibre_tops) / (fibre_roughness - fibre_tops));
    return saturation_open * std::max(0.0, 1 - wicks / theta_advancing_rad);
}

double free_saturation(const materials::Paper& paper, double front_kg_m2) {
    const double bound = std::min(sheet::half_equilibrium_kg_m2(paper, 1.0), 0.9 * sheet::half_capacity_kg_m2(paper));
    return std::clamp((front_kg_m2 - bound) / (sheet::half_capacity_kg_m2(paper) - bound), 0.0, 1.0);
}

bool set_ways(SheetState& s, const FilmParams& p, sheet::Field<float>& way) {
    const Rule rule = rule_for(s, p);
    const auto& g = s.geometry;
    std::vector<char> advancing(g.py, 0);
    grid::for_rows(g.py, s.film_tiles.cells(), [&](int j) {
        for (const grid::Span& span : s.film_tiles.spans(j))
            for (int i = span.begin; i < span.end; i += grid::TileSet::size) {
                const int end = std::min(i + grid::TileSet::size, span.end);
                if (j < g.ny && end <= g.nx && all_open(s, j, i, end)) std::fill_n(way.row(j) + i, end - i, open_way);
                else set_ways_of(s, p, rule, j, {i, end}, way, advancing[j]);
            }
    });
    for (char a : advancing)
        if (a) return false;
    return true;
}

} // namespace tidemark::water
