#include "grid/csv.h"
#include "report/minute_line.h"
#include "report/page_detail.h"
#include "report/page_table.h"
#include "report/plan_cautions.h"
#include "report/type_size.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

constexpr double beside_mm = 6; ///< between two columns, as page_style.cpp has it
constexpr double half_mm = (printed_width_mm - beside_mm) / 2;
constexpr std::size_t few_mixes = 5; ///< more stand in two tables side by side

std::string clock(double minutes) { return grid::clock_text(60 * minutes); }

std::string time_text(const Cue& cue) {
    if (std::isnan(cue.from_min))
        return "–";
    const std::string from = clock(cue.from_min), to = clock(cue.to_min);
    return from == to ? from : fmt::format("{}–{}", from, to);
}

std::string laid_text(const Cue& cue) {
    std::string text = cue.mix;
    if (!text.empty() && cue.laid_mL > 0)
        text += fmt::format(" {}", amount_text(cue.laid_mL, "mL"));
    if (cue.brush_loads > 1)
        text += fmt::format(", {} loads", cue.brush_loads);
    return text;
}

PageTable cue_table(const CueSheet& sheet) {
    PageTable t;
    t.css = "cues", t.caption = "Minutes and seconds from the first touch. mL are what the sheet takes.";
    t.columns = {{"At", 0.11}, {"What to do", 0.31}, {"Mix", 0.12}, {"Watch for", 0.27}, {"Minute ", 0.19, "line"}};
    t.names = 1, t.bold_names = true, t.drawn = 4;
    for (const Cue& cue : sheet.cues)
        t.rows.push_back({{{time_text(cue)}, {cue.name + ":", cue.doing}, {laid_text(cue)}, {cue.watch}, {}},
                          cue.waits ? "waits" : "step"});
    const double end_min = axis_end_min(sheet);
    t.draw = [&sheet, end_min](Html& h, std::size_t row) { write_ribbon(h, sheet.cues[row], end_min); };
    t.draw_head = [end_min](Html& h, std::size_t) { write_axis(h, end_min); };
    return t;
}

std::string pigments_text(const judge::MixAmount& m) {
    std::string text;
    for (const judge::MixPigment& p : m.pigments)
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", p.pigment, amount_text(p.prepare_g, ""));
    return text.empty() ? "no pigment" : text;
}

std::string ready_text(const judge::MixAmount& m) {
    return m.prepare_from_mL == m.prepare_to_mL ? fmt::format("{:.0f} mL", m.prepare_to_mL)
                                                : fmt::format("{:.0f}–{:.0f} mL", m.prepare_from_mL, m.prepare_to_mL);
}

std::vector<PageTable> mix_tables(const CueSheet& sheet) {
    std::vector<PageTable::Row> rows;
    for (const judge::MixAmount& m : sheet.mixes)
        if (m.prepare_to_mL > 0)
            rows.push_back({{{m.mix}, {ready_text(m)}, {pigments_text(m)}}});
    const std::size_t first = rows.size() > few_mixes ? (rows.size() + 1) / 2 : rows.size();
    std::vector<PageTable> tables;
    for (std::size_t begin = 0; begin < rows.size(); begin += first) {
        PageTable t;
        t.css = "mixes";
        t.caption = begin == 0 ? "Water and dry pigment, with some to spare" : "Mixes, continued";
        t.columns = {{"Mix", 0.17}, {"Water", 0.15}, {"Pigment, g", 0.68}};
        const auto from = rows.begin() + static_cast<std::ptrdiff_t>(begin);
        t.rows.assign(from, from + static_cast<std::ptrdiff_t>(std::min(first, rows.size() - begin)));
        tables.push_back(std::move(t));
    }
    return tables;
}

std::string caution_text(const materials::Caution& c) { return fmt::format("{}: {}", c.what, c.text); }

/// Cautions stand in two columns below the mixes when these take both.
double foot_mm(const CueSheet& sheet, const std::vector<PageTable>& mixes, double pt) {
    double ready = 0, cautions = 0;
    for (const PageTable& t : mixes)
        ready = std::max(ready, t.height_mm(half_mm, pt));
    for (const materials::Caution& c : sheet.cautions)
        cautions += lines_of(characters(caution_text(c)), half_mm - 4, pt) * line_mm(pt);
    const double heads = 3.4 * line_mm(pt);
    return mixes.size() > 1 ? ready + cautions / 2 + 2 * heads : std::max(ready, cautions) + heads;
}

void write_cautions(Html& h, const CueSheet& sheet, bool wide) {
    h.inside("section", {{"aria-labelledby", "cautions"}}, [&] {
        h.element("h2", {{"id", "cautions"}}, "Cautions");
        h.inside("ul", {{"class", wide ? "columns" : "list"}}, [&] {
            for (const materials::Caution& c : sheet.cautions)
                h.inside("li", {}, [&] {
                    h.element("b", {}, c.what + ":");
                    h.text(fmt::format(" {}", c.text));
                });
        });
        h.element("p", {}, who_decides);
    });
}

void write_mixes(Html& h, const std::vector<PageTable>& tables) {
    h.inside("section", {{"aria-labelledby", "mixes"}}, [&] {
        h.element("h2", {{"id", "mixes"}}, "Mixes to have ready");
        h.inside("div", {{"class", tables.size() > 1 ? "side" : "one"}}, [&] {
            for (const PageTable& t : tables)
                h.inside("div", {}, [&] { t.write(h); });
        });
    });
}

} // namespace

std::string amount_text(double value, const char* unit) {
    if (value < 0.01)
        return fmt::format("< 0.01{}{}", *unit ? " " : "", unit);
    const int decimals = value >= 10 ? 0 : value >= 1 ? 1 : 2;
    return fmt::format("{:.{}f}{}{}", value, decimals, *unit ? " " : "", unit);
}

void write_cue_page(Html& h, const CueSheet& sheet) {
    const PageTable cues = cue_table(sheet);
    const std::vector<PageTable> mixes = mix_tables(sheet);
    const double pt = type_pt([&](double type) {
        return 6 * line_mm(type) + cues.height_mm(printed_width_mm, type) + foot_mm(sheet, mixes, type);
    });
    h.inside("section", {{"class", "page"}, {"style", fmt::format("--type:{:g}pt", pt)}}, [&] {
        h.element("h1", {}, sheet.title + ": cue sheet");
        h.element("p", {}, fmt::format("{}. {}", sheet.set_up, sheet.outcome));
        h.inside("p", {{"class", "key"}}, [&] { write_key(h); });
        cues.write(h);
        const bool wide = mixes.size() > 1;
        h.inside("div", {{"class", wide ? "below" : "side"}}, [&] {
            write_mixes(h, mixes);
            write_cautions(h, sheet, wide);
        });
    });
}

} // namespace tidemark::report
