#include "judge/neighbours_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace tidemark::judge {

namespace {

/// Masks of neighbours often overlap a little so that no paper shows between them: what is this close to an outline
/// does not count as the next thing.
constexpr double overlap_mm = 2.5;

bool paints(const plan::Step& s) {
    return std::holds_alternative<plan::Wash>(s.act) || std::holds_alternative<plan::Charge>(s.act) ||
           std::holds_alternative<plan::Drybrush>(s.act) || std::holds_alternative<plan::Body>(s.act);
}

PaintedArea make_area(const plan::Plan& p, int area, const sheet::Record& record, const sheet::Geometry& g) {
    PaintedArea a;
    a.area = area;
    a.coverage = plan::coverage(p, area, g.nx, g.ny);
    if (area >= 0)
        a.names.push_back(plan::area_name(p, area));
    for (std::size_t s = 0; s < p.steps.size(); ++s) {
        if (!paints(p.steps[s]) || p.steps[s].area() != area || !was_played(record, static_cast<int>(s)))
            continue;
        a.names.push_back(p.steps[s].name);
        a.last_step = static_cast<int>(s);
    }
    return a;
}

void number_combos(PaintedMap& map, const sheet::Geometry& g) {
    std::map<std::vector<int>, int> known;
    map.combo.resize(g.nx, g.ny);
    std::vector<int> here;
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) {
            here.clear();
            for (std::size_t a = 0; a < map.areas.size(); ++a)
                if (map.areas[a].coverage(i, j) >= plan::half_covered)
                    here.push_back(static_cast<int>(a));
            const auto [it, is_new] = known.try_emplace(here, static_cast<int>(map.combos.size()));
            if (is_new)
                map.combos.push_back(here);
            map.combo(i, j) = it->second;
        }
}

/// Walks along the normal (side +1: outwards) for as long as `belongs` holds for the combination of areas met.
template <class Belongs>
double walk(const PaintedMap& map, const OutlinePoint& p, double side, double longest_mm, Belongs&& belongs) {
    const double step = 0.5 * map.cell_mm;
    int settled = -1;
    for (double s = std::max(step, 0.5); s <= 2 * longest_mm; s += step) {
        const int c = map.combo_at(p.x_mm + side * s * p.out_x, p.y_mm + side * s * p.out_y);
        if (c < 0)
            return std::clamp(s - map.cell_mm, 1.0, longest_mm); // the border bounds nothing painted
        if (s > overlap_mm && settled < 0)
            settled = c;
        if (!belongs(c) || (settled >= 0 && c != settled))
            return std::clamp(0.5 * s, 1.0, longest_mm);
    }
    return longest_mm;
}

} // namespace

bool was_played(const sheet::Record& record, int step) {
    return std::any_of(record.acts.begin(), record.acts.end(), [&](const auto& a) { return a.step == step; });
}

int PaintedMap::combo_at(double x_mm, double y_mm) const {
    const int i = static_cast<int>(std::floor(x_mm / cell_mm)), j = static_cast<int>(std::floor(y_mm / cell_mm));
    return i < 0 || j < 0 || i >= combo.nx() || j >= combo.ny() ? -1 : combo(i, j);
}

bool PaintedMap::covers(int combo_index, int area) const {
    const auto& c = combos[combo_index];
    return std::binary_search(c.begin(), c.end(), area);
}

int PaintedMap::index_of(int plan_area) const {
    for (std::size_t a = 0; a < areas.size(); ++a)
        if (areas[a].area == plan_area)
            return static_cast<int>(a);
    return bare_paper;
}

PaintedMap painted_map(const plan::Plan& p, const sheet::Record& record, const sheet::Geometry& g) {
    PaintedMap map;
    map.cell_mm = g.cell_m * 1e3;
    for (std::size_t s = 0; s < p.steps.size(); ++s) {
        if (!paints(p.steps[s]) || !was_played(record, static_cast<int>(s)))
            continue;
        const int area = p.steps[s].area();
        if (map.index_of(area) == bare_paper)
            map.areas.push_back(make_area(p, area, record, g));
    }
    number_combos(map, g);
    return map;
}

const plan::Want*
wanted_between(const plan::Plan& p, const std::vector<std::string>& one, const std::vector<std::string>& other) {
    const auto has = [](const std::vector<std::string>& names, const std::string& n) {
        return std::find(names.begin(), names.end(), n) != names.end();
    };
    for (const plan::Want& w : p.wants)
        if ((has(one, w.first) && has(other, w.second)) || (has(one, w.second) && has(other, w.first)))
            return &w;
    return nullptr;
}

int neighbour_at(const plan::Plan& p, const PaintedMap& map, int own, const OutlinePoint& o) {
    const double far = std::max(1.0, 1.5 * map.cell_mm);
    const int there = map.combo_at(o.x_mm + far * o.out_x, o.y_mm + far * o.out_y);
    const int here = map.combo_at(o.x_mm - far * o.out_x, o.y_mm - far * o.out_y);
    if (there < 0)
        return bare_paper;
    int best = bare_paper, best_rank = -1;
    for (const int k : map.combos[there]) {
        if (k == own)
            continue;
        const PaintedArea& a = map.areas[k];
        const bool wanted = wanted_between(p, map.areas[own].names, a.names) != nullptr;
        const bool far_side_only = here < 0 || !map.covers(here, k);
        const int rank = (wanted ? 2 : 0) + (far_side_only ? 1 : 0);
        if (rank > best_rank || (rank == best_rank && a.last_step > map.areas[best].last_step))
            best = k, best_rank = rank;
    }
    return best;
}

Reach reach_at(const PaintedMap& map, int own, int neighbour, const OutlinePoint& o, double longest_mm) {
    const auto inside = [&](int c) { return map.covers(c, own); };
    const auto outside = [&](int c) {
        if (map.covers(c, own))
            return false;
        return neighbour == bare_paper ? map.combos[c].empty() : map.covers(c, neighbour);
    };
    return {walk(map, o, -1, longest_mm, inside), walk(map, o, 1, longest_mm, outside)};
}

} // namespace tidemark::judge
