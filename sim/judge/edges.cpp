#include "judge/edges.h"

#include "grid/within.h"
#include "judge/neighbours_detail.h"
#include "judge/stretches_detail.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

namespace tidemark::judge {

namespace {

const std::vector<std::string> paper_names{"paper"};

void check(const EdgeRules& r) {
    constexpr grid::Allowed mm{0.01, 1000, "mm"}, lightness{0, 100, "L*"};
    grid::within("firm_from_mm", r.firm_from_mm, mm);
    grid::within("soft_from_mm", r.soft_from_mm, mm);
    grid::within("lost_above_mm", r.lost_above_mm, mm);
    grid::within("lost_below_L", r.lost_below_L, lightness);
    grid::within("tidemark_from_L", r.tidemark_from_L, lightness);
    grid::within("reach_mm", r.reach_mm, mm);
    grid::within("window_mm", r.window_mm, mm);
    grid::within("least_length_mm", r.least_length_mm, mm);
    grid::within("rim_reach_mm", r.transition.rim_reach_mm, mm);
    grid::within("least_mm", r.stretch.least_mm, mm);
    grid::within("change", r.stretch.change, {0, 1000, "octave-millimetres"});
    grid::within("plateau_mm", r.transition.plateau_mm, mm);
    grid::within("least_contrast_L", r.transition.least_contrast_L, lightness);
}

/// Stage of the paper that the wash was laid on, along its outline with one neighbour.
void say_what_it_met(Edge& e, const sheet::Record& record, const Border& s) {
    std::array<int, 4> met{};
    int all = 0;
    for (const sheet::ActRecord& act : record.acts)
        if (act.step == e.step)
            for (auto [i, j] : s.inside)
                if (act.cells.touched(i, j))
                    ++met[static_cast<std::size_t>(act.cells.met(i, j))], ++all;
    if (all == 0)
        return;
    const auto most = std::max_element(met.begin(), met.end());
    e.met = plan::word(static_cast<plan::Stage>(most - met.begin()));
    e.met_share = static_cast<double>(*most) / all;
}

Edge edge_row(const plan::Plan& p,
              const sheet::Record& record,
              const PaintedMap& map,
              int step,
              int own,
              int neighbour,
              const Border& s,
              double outline_mm,
              const EdgeRules& rules) {
    const auto& other = neighbour == bare_paper ? paper_names : map.areas[neighbour].names;
    std::vector<std::string> ours = map.areas[own].names;
    Edge e;
    e.step = step;
    e.area = ours.front();
    e.neighbour = other.front();
    e.length_mm = s.length_mm;
    std::vector<const Across*> all;
    for (const BorderPiece& piece : s.pieces)
        for (const BorderPlace& place : piece.places)
            all.push_back(&place.across);
    const Measured v = measure_together(all, map.cell_mm, rules);
    e.width_mm = v.median_width_mm, e.shift_mm = v.median_shift_mm, e.delta_L = v.delta_L, e.rim_L = v.rim_L;
    e.inside_L = v.inside_L, e.outside_L = v.outside_L;
    e.word = plan::word(edge_word(e.width_mm, v.delta_L, rules));
    e.tidemark = v.rim_L >= rules.tidemark_from_L;
    if (const plan::Want* w = wanted_between(p, ours, other))
        e.wanted = plan::word(w->edge), e.want = static_cast<int>(w - p.wants.data());
    e.x_mm = s.middle_x_mm, e.y_mm = s.middle_y_mm;
    say_what_it_met(e, record, s);
    e.stretches = stretches_of({p, record, map, step, own, outline_mm}, s, rules);
    return e;
}

} // namespace

plan::EdgeWord edge_word(double width_mm, double delta_L, const EdgeRules& r) {
    if (std::isnan(width_mm) || width_mm > r.lost_above_mm || std::abs(delta_L) < r.lost_below_L)
        return plan::EdgeWord::lost;
    if (width_mm < r.firm_from_mm)
        return plan::EdgeWord::hard;
    return width_mm < r.soft_from_mm ? plan::EdgeWord::firm : plan::EdgeWord::soft;
}

std::vector<Edge> judge_edges(const plan::Plan& p,
                              const sheet::Record& record,
                              const grid::Field<float>& lstar,
                              const sheet::Geometry& g,
                              const EdgeRules& rules) {
    check(rules);
    std::vector<Edge> edges;
    const PaintedMap map = painted_map(p, record, g);
    for (std::size_t a = 0; a < map.areas.size(); ++a) {
        const int own = static_cast<int>(a);
        std::optional<std::vector<Border>> borders; // the same for every wash over this area
        double outline_mm = 0;
        for (std::size_t s = 0; s < p.steps.size(); ++s) {
            const bool is_wash = std::holds_alternative<plan::Wash>(p.steps[s].act);
            if (!is_wash || p.steps[s].area() != map.areas[a].area || !was_played(record, static_cast<int>(s)))
                continue;
            if (!borders) {
                borders = borders_of(p, map, own, lstar, g, rules);
                for (const Border& border : *borders)
                    outline_mm += border.length_mm;
            }
            for (const Border& border : *borders)
                if (border.length_mm >= rules.least_length_mm)
                    edges.push_back(edge_row(p, record, map, static_cast<int>(s), own, border.neighbour, border,
                                             outline_mm, rules));
        }
    }
    std::stable_sort(edges.begin(), edges.end(), [](const Edge& x, const Edge& y) { return x.step < y.step; });
    return edges;
}

} // namespace tidemark::judge
