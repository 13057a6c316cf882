#include "report/tables.h"

#include "grid/csv.h"

#include <cmath>
#include <numeric>

namespace tidemark::report {

namespace {

constexpr double g_from_kg = 1e3;

std::string step_name(const plan::Plan& p, int step) {
    return step < 0 || step >= static_cast<int>(p.steps.size()) ? "all" : p.steps[step].name;
}
double total(const std::vector<double>& v) { return std::accumulate(v.begin(), v.end(), 0.0); }

/// Tenths, hundredths: digits that the measurement can stand for.
double rounded(double v, double to) { return std::isfinite(v) ? std::round(v / to) * to + 0.0 : v; }

} // namespace

std::string edges_table(const plan::Plan& p,
                        const std::vector<judge::Edge>& edges,
                        const std::vector<judge::WantVerdict>& wants) {
    grid::CsvWriter csv({"step", "area", "neighbour", "edge", "wanted", "tidemark", "width_mm", "difference_L",
                         "rim_L", "inside_L", "outside_L", "shift_mm", "length_mm", "x_mm", "y_mm", "met",
                         "met_pct"});
    for (const judge::Edge& e : edges) {
        csv.cell(step_name(p, e.step)).cell(e.area).cell(e.neighbour).cell(e.word).cell(e.wanted);
        csv.cell(e.tidemark ? "yes" : "no");
        csv.number(rounded(e.width_mm, 0.01)).number(rounded(e.delta_L, 0.1)).number(rounded(e.rim_L, 0.1));
        csv.number(rounded(e.inside_L, 0.1)).number(rounded(e.outside_L, 0.1)).number(rounded(e.shift_mm, 0.1));
        csv.number(rounded(e.length_mm, 1)).number(rounded(e.x_mm, 0.1)).number(rounded(e.y_mm, 0.1));
        csv.cell(e.met).number(rounded(100 * e.met_share, 1));
        csv.end_row();
    }
    for (std::size_t k = 0; k < wants.size(); ++k) {
        if (wants[k].edge >= 0)
            continue;
        csv.cell("").cell(p.wants[k].first).cell(p.wants[k].second).cell("not judged: " + wants[k].reason);
        csv.cell(plan::word(p.wants[k].edge));
        for (int empty = 0; empty < 12; ++empty)
            csv.cell("");
        csv.end_row();
    }
    return csv.text();
}

std::string stretches_table(const plan::Plan& p, const std::vector<judge::Edge>& edges) {
    grid::CsvWriter csv({"step", "area", "neighbour", "stretch", "side", "edge", "tidemark", "width_mm", "difference_L",
                         "rim_L", "rim_mm", "shift_mm", "length_mm", "share_pct", "x_mm", "y_mm", "from_x_mm",
                         "from_y_mm", "to_x_mm", "to_y_mm", "met", "met_pct", "laid_min", "why"});
    for (const judge::Edge& e : edges)
        for (std::size_t k = 0; k < e.stretches.size(); ++k) {
            const judge::Stretch& s = e.stretches[k];
            csv.cell(step_name(p, e.step)).cell(e.area).cell(e.neighbour).number(static_cast<double>(k + 1));
            csv.cell(s.side).cell(s.word).cell(s.tidemark ? "yes" : "no");
            csv.number(rounded(s.width_mm, 0.01)).number(rounded(s.delta_L, 0.1)).number(rounded(s.rim_L, 0.1));
            csv.number(rounded(s.rim_mm, 0.1)).number(rounded(s.shift_mm, 0.1)).number(rounded(s.length_mm, 1));
            csv.number(rounded(100 * s.share, 1));
            for (const judge::Place_mm& at : {s.middle, s.from, s.to})
                csv.number(rounded(at.x_mm, 0.1)).number(rounded(at.y_mm, 0.1));
            csv.cell(s.met).number(s.met.empty() ? NAN : rounded(100 * s.met_share, 1));
            csv.number(rounded(s.laid_min, 0.01)).cell(s.why);
            csv.end_row();
        }
    return csv.text();
}

std::string marks_table(const plan::Plan& p, const std::vector<judge::Mark>& marks) {
    grid::CsvWriter csv({"mark", "step", "area", "time_min", "x_mm", "y_mm", "size_mm", "darker_L", "paler_L", "met", "what"});
    for (const judge::Mark& m : marks) {
        csv.cell(judge::word(m.kind)).cell(step_name(p, m.step)).cell(m.area).number(rounded(m.minute, 0.01));
        csv.number(rounded(m.x_mm, 0.1)).number(rounded(m.y_mm, 0.1)).number(rounded(m.size_mm, 0.1));
        csv.number(rounded(m.dark_L, 0.1)).number(m.kind == judge::MarkKind::bloom ? rounded(m.pale_L, 0.1) : NAN);
        csv.cell(m.met).cell(m.text);
        csv.end_row();
    }
    return csv.text();
}

std::string windows_table(const plan::Plan& p, const std::vector<judge::Window>& windows) {
    grid::CsvWriter csv({"step", "area", "wet_from_min", "moist_min", "damp_min", "dry_min", "until_min"});
    for (const judge::Window& w : windows) {
        csv.cell(step_name(p, w.step)).cell(w.area);
        for (const double minute : {w.wet_from_min, w.moist_min, w.damp_min, w.dry_min, w.until_min})
            csv.number(rounded(minute, 0.01));
        csv.end_row();
    }
    return csv.text();
}

std::string mixes_table(const std::vector<judge::MixAmount>& mixes) {
    grid::CsvWriter csv({"mix", "laid_mL", "prepare_from_mL", "prepare_to_mL", "pigment", "laid_g", "prepare_g"});
    for (const judge::MixAmount& m : mixes) {
        const auto amount = [&] {
            csv.cell(m.mix).number(m.laid_mL, 4).number(m.prepare_from_mL).number(m.prepare_to_mL);
        };
        for (const judge::MixPigment& k : m.pigments) {
            amount();
            csv.cell(k.pigment).number(k.laid_g, 3).number(k.prepare_g, 3);
            csv.end_row();
        }
        if (!m.pigments.empty())
            continue;
        amount();
        csv.cell("").cell("").cell("");
        csv.end_row();
    }
    return csv.text();
}

std::string brushes_table(const std::vector<judge::MixAmount>& mixes, const std::vector<materials::Brush>& others) {
    grid::CsvWriter csv({"mix", "brush", "in_the_plan", "washes", "refills", "laid_mL", "taken_mL", "stays_mL"});
    const auto row = [&](const judge::MixAmount& m, const judge::BrushUse& b, bool planned) {
        csv.cell(m.mix).cell(b.brush).cell(planned ? "yes" : "no").number(b.washes).number(b.refills());
        csv.number(b.laid_mL, 4).number(b.taken_mL, 4).number(b.stays_mL(), 4);
        csv.end_row();
    };
    for (const judge::MixAmount& m : mixes) {
        for (const judge::BrushUse& b : m.brushes)
            row(m, b, true);
        for (const materials::Brush& b : others)
            if (!m.washes_mL.empty())
                row(m, judge::with_brush(m.washes_mL, b), false);
    }
    return csv.text();
}

std::string ledger_table(const std::vector<sheet::LedgerLine>& lines) {
    grid::CsvWriter csv({"time_min", "water_start_g", "water_laid_g", "evaporated_g", "to_board_g", "run_off_g",
                         "water_lifted_g", "film_g", "front_g", "back_g", "water_closure_rel", "pigment_laid_g",
                         "pigment_lifted_g", "pigment_on_sheet_g", "gum_laid_g", "gum_lifted_g", "gum_on_sheet_g",
                         "worst_pigment_closure_rel"});
    for (const sheet::LedgerLine& l : lines) {
        const sheet::Ledger& f = l.flows;
        csv.number(l.time_s / 60);
        for (const double kg : {f.start_kg, f.laid_kg, f.evaporated_kg, f.to_board_kg, f.run_off_kg, f.lifted_kg,
                                l.film_kg, l.front_kg, l.back_kg})
            csv.number(kg * g_from_kg, 9); // the closure can be worked out again from the row
        csv.number(l.water_closure, 3);
        for (const double kg : {total(f.pigment_laid_kg), total(f.pigment_lifted_kg), total(l.pigment_on_sheet_kg),
                                f.gum_laid_kg, f.gum_lifted_kg, l.gum_on_sheet_kg})
            csv.number(kg * g_from_kg, 9);
        csv.number(l.pigment_closure, 3);
        csv.end_row();
    }
    return csv.text();
}

} // namespace tidemark::report
