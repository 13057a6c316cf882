#include "grid/csv.h"
#include "report/advice_text.h"
#include "report/plan_cautions.h"
#include "report/verdict_text.h"
#include "report/write_outputs.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

std::string clock_or(double minutes, const char* otherwise) {
    return std::isnan(minutes) ? otherwise : grid::clock_text(60 * minutes);
}

std::string windows_text(const Inputs& in, const std::vector<judge::Window>& windows) {
    std::string text =
        fmt::format("{:<22} {:>8} {:>8} {:>8} {:>8}\n", "From when (m:ss)", "wet", "moist", "damp", "dry");
    for (const judge::Window& w : windows) {
        const std::string name = w.step < 0 ? w.area : in.plan.steps[w.step].name;
        text += fmt::format("  {:<20} {:>8} {:>8} {:>8} {:>8}\n", name, clock_or(w.wet_from_min, "-"),
                            clock_or(w.moist_min, "-"), clock_or(w.damp_min, "-"), clock_or(w.dry_min, "-"));
    }
    return text;
}

std::string found_text(const judge::Edge& e) {
    std::string text = edge_text(e.word, e.width_mm, e.delta_L);
    if (!e.met.empty())
        text += fmt::format(", met {} paper along {:.0f} % of it", e.met, 100 * e.met_share);
    if (e.tidemark)
        text += fmt::format(", tidemark of {:.0f} L*", e.rim_L);
    return text;
}

/// One line a wish, in the plan's order.
std::string wants_text(const Inputs& in, const judge::Verdicts& v) {
    std::string text;
    int met = 0, unjudged = 0;
    for (std::size_t k = 0; k < v.wants.size(); ++k) {
        const judge::WantVerdict& w = v.wants[k];
        const plan::Want& want = in.plan.wants[k];
        met += w.met ? 1 : 0, unjudged += w.edge < 0 ? 1 : 0;
        if (w.edge < 0) {
            text += fmt::format("  ? {} | {}: wanted {}, not judged: {}\n", want.first, want.second,
                                plan::word(want.edge), w.reason);
            continue;
        }
        const judge::Edge& e = v.edges[w.edge];
        text += fmt::format("  {} {} | {}: wanted {}, found {}\n", w.met ? " " : "!", in.plan.steps[e.step].name,
                            e.neighbour, e.wanted, found_text(e));
    }
    if (text.empty())
        return text;
    const std::string rest = unjudged > 0 ? fmt::format(", {} not judged", unjudged) : "";
    return fmt::format("Edges: {} of {} as wanted{}\n", met, v.wants.size(), rest) + text;
}

std::string edges_text(const Inputs& in, const judge::Verdicts& v) {
    std::string text = wants_text(in, v);
    for (const judge::Edge& e : v.edges)
        if (e.tidemark && e.wanted.empty())
            text +=
                fmt::format("  tidemark of {:.0f} L* on {} | {}\n", e.rim_L, in.plan.steps[e.step].name, e.neighbour);
    return text;
}

std::string marks_text(const std::vector<judge::Mark>& marks) {
    constexpr std::size_t most = 8;
    const std::vector<const judge::Mark*> plain = plainest(marks);
    std::string text;
    for (std::size_t k = 0; k < std::min(most, plain.size()); ++k)
        text += "  " + plain[k]->text + "\n";
    if (plain.size() > most)
        text += fmt::format("  and {} more in marks.csv\n", plain.size() - most);
    return text.empty() ? text : "Marks on the sheet:\n" + text;
}

std::string values_text(const judge::Values& v) {
    const std::string text = agreement_text(v);
    return text.empty() ? text : "Values: " + text + "\n";
}

std::string times_text(int times) { return times == 1 ? "once" : times == 2 ? "twice" : fmt::format("{} times", times); }

std::string mixes_text(const std::vector<judge::MixAmount>& mixes) {
    std::string text;
    for (const judge::MixAmount& m : mixes) {
        if (m.prepare_to_mL <= 0)
            continue;
        const std::string range = m.prepare_from_mL == m.prepare_to_mL
                                      ? fmt::format("{}", m.prepare_to_mL)
                                      : fmt::format("{} to {}", m.prepare_from_mL, m.prepare_to_mL);
        text += fmt::format("{}{} {} mL", text.empty() ? "Have ready: " : "; ", m.mix, range);
        for (const judge::BrushUse& b : m.brushes)
            text += fmt::format(", {} filled {}, {:.1f} mL stay in it", b.brush, times_text(b.loads), b.stays_mL());
    }
    return text.empty() ? text : text + "\n";
}

std::string cautions_text(const plan::Plan& p, const std::vector<materials::Caution>& cautions) {
    std::string text;
    for (const materials::Caution& c : cautions_for(p, cautions))
        text += fmt::format("Caution, {}: {}\n", c.what, c.text);
    return text.empty() ? text : fmt::format("{}{}\n", text, who_decides);
}

} // namespace

std::string summary(const Inputs& in, const judge::Verdicts& v, const std::vector<materials::Caution>& cautions) {
    std::string text = in.finished_dry
                           ? fmt::format("Dry at {}\n", grid::clock_text(in.record.end_s))
                           : fmt::format("Stopped at {}, not dry yet\n", grid::clock_text(in.record.end_s));
    text += windows_text(in, v.windows) + edges_text(in, v) + advice_text(in.plan, v) + marks_text(v.marks) + values_text(v.values) + mixes_text(v.mixes);
    for (const std::string& w : in.record.warnings)
        text += "Warning: " + w + "\n";
    return text + cautions_text(in.plan, cautions);
}

std::string summary(const Inputs& in) {
    const sheet::Look dried = sheet::look(in.sheet, sheet::LookAs::dried);
    return summary(in, judge::judge_run(in.plan, in.record, dried.lstar, in.sheet.geometry), materials::read_cautions(grid::presets_folder()));
}

} // namespace tidemark::report
