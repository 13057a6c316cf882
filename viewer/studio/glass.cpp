#include "viewer/studio/glass.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tidemark::viewer {

namespace {

const char* const stage_words[] = {"wet and shining", "moist, the sheen is broken", "damp", "dry"};
const char* const next_words[] = {"wet", "moist", "damp", "dry"};

/// Nearest point of any judged edge.
void look_for_edge(const Outcome& o, UnderGlass& g) {
    double nearest = edge_reach_mm;
    for (const judge::Edge& edge : o.verdicts.edges)
        for (const judge::Stretch& s : edge.stretches)
            for (const judge::Place_mm& p : s.line)
                if (const double away = std::hypot(p.x_mm - g.x_mm, p.y_mm - g.y_mm); away < nearest) {
                    nearest = away;
                    g.edge = s.word, g.edge_width_mm = s.width_mm, g.edge_is_draft = o.draft;
                    g.edge_between = fmt::format("{} | {}", edge.area, edge.neighbour);
                }
}

std::string minutes_words(double min) {
    if (min < 1) return "within a minute";
    return fmt::format("in about {:.0f} min", min);
}

std::string words_of(const UnderGlass& g) {
    std::string words = stage_words[g.stage];
    if (g.next_stage_min >= 0) words += fmt::format("; {} {}", next_words[g.next_stage], minutes_words(g.next_stage_min));
    return words;
}

} // namespace

std::optional<UnderGlass> under_glass(const Run& run, double time_s, double x_mm, double y_mm) {
    const auto m = run.reel().at(time_s, glass_parts);
    return m ? under_glass(run, *m, time_s, x_mm, y_mm) : std::nullopt;
}

std::optional<UnderGlass> under_glass(const Run& run, const Moment& moment, double time_s, double x_mm, double y_mm) {
    const plan::Plan& plan = run.plan();
    if (!(x_mm >= 0 && y_mm >= 0 && x_mm < plan.width_m * 1e3 && y_mm < plan.height_m * 1e3)) return std::nullopt;
    const Moment* m = &moment;
    const int i = std::clamp(static_cast<int>(x_mm * 1e-3 / m->cell_m), 0, m->nx - 1);
    const int j = std::clamp(static_cast<int>(y_mm * 1e-3 / m->cell_m), 0, m->ny - 1);
    const std::size_t at = m->at(i, j);
    UnderGlass g;
    g.x_mm = x_mm, g.y_mm = y_mm;
    g.lstar = lstar_of(m->lstar_code[at]);
    g.film_um = film_um(m->film_code[at]);
    g.moisture_share = m->moisture_code[at] / 255.0;
    g.stage = g.next_stage = m->stage[at];
    if (const auto next = run.reel().next_stage(i, j, m->time_s)) {
        g.next_stage = next->stage;
        g.next_stage_min = std::max(0.0, next->time_s - time_s) / 60;
    }
    for (std::size_t p = 0; p < m->load_codes.size(); ++p)
        if (const double load = load_g_m2(m->load_codes[p][static_cast<std::size_t>(j / 2) * m->load_nx() + i / 2]); load >= 0.01)
            g.pigments_g_m2.emplace_back(plan.pigments[p].id, load);
    std::sort(g.pigments_g_m2.begin(), g.pigments_g_m2.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    if (const auto outcome = run.outcome()) look_for_edge(*outcome, g);
    g.areas = run.areas_at(x_mm, y_mm);
    g.words = words_of(g);
    return g;
}

} // namespace tidemark::viewer
