#include <fmt/format.h>
#include <omp.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <optional>

#include "cli/commands.h"
#include "cli/progress.h"
#include "cli/sheet_options.h"
#include "cli/vary_options.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "plan/another_day.h"
#include "rehearsal/branches.h"
#include "report/edge_plot.h"
#include "report/side_by_side.h"
#include "sheet/look.h"

namespace tidemark::cli {
namespace {

constexpr double margin_m = 20e-3;  // around what varies, on the contact sheet
constexpr std::size_t few = 4;      // edges below a sheet and on a line of the terminal

std::vector<Varied> varied_of(const AskOptions& o, const plan::Variants& plans) {
    std::vector<Varied> all;
    if (!o.paper.empty()) all.push_back(varied_sheet("--paper", "paper", o.paper));
    if (!o.room.empty()) all.push_back(varied_sheet("--room", "room", o.room));
    for (const std::string& text : o.vary) {
        all.push_back(varied_from(text));
        all.back().step = plans.whole_name(all.back().step, "--vary");
    }
    if (all.empty() && !o.uncertain_given)
        throw grid::BadInput("ask", "nothing is asked", "at least one of --vary, --room, --paper, --uncertain");
    return all;
}

/// The varied steps, and those that lay a varied mix.
std::vector<int> steps_of(const plan::Plan& plan, const std::vector<Varied>& all) {
    std::vector<int> steps;
    for (int k = 0; k < static_cast<int>(plan.steps.size()); ++k)
        for (const Varied& v : all) {
            const bool laid = std::visit([&](const auto& act) {
                if constexpr (requires { act.mix; })
                    return act.mix >= 0 && "mix." + plan.mixes[act.mix].name == v.step;
                else
                    return false;
            }, plan.steps[k].act);
            if (laid || v.step == plan.steps[k].name) {
                steps.push_back(k);
                break;
            }
        }
    return steps;
}

/// The varied steps and the first after them that waits until all is dry: later washes are the same in every variant.
std::vector<int> stop_after(const plan::Plan& plan, std::vector<int> steps) {
    if (steps.empty()) return {};
    for (int k = *std::max_element(steps.begin(), steps.end()) + 1; k < static_cast<int>(plan.steps.size()); ++k) {
        const auto* dry = std::get_if<plan::Dry>(&plan.steps[k].act);
        if (dry && dry->until == plan::Stage::dry) {
            steps.push_back(k);
            return steps;
        }
    }
    return {};
}

/// What is painted: variants as planned, then each of them on every day.
struct Sheets {
    std::vector<plan::Values> values;
    std::vector<report::Asked> asked;
    std::vector<report::SheetPiece> pieces;
};

Sheets sheets_of(const AskOptions& o, const plan::Variants& plans, const std::vector<Varied>& varied) {
    Sheets all;
    const auto variants = combinations(varied);
    const std::size_t days = o.uncertain_given ? static_cast<std::size_t>(o.uncertain) : 0;
    if (days > most_variants || (o.uncertain_given && days < 1)) throw grid::BadInput("--uncertain", fmt::format("{}", o.uncertain), "1 to 64 days");
    if (variants.size() * std::max<std::size_t>(days, 1) > most_variants)
        throw grid::BadInput("--uncertain", fmt::format("{} variants on {} days", variants.size(), days), fmt::format("at most {} in all", most_variants));
    for (const auto& changes : variants) {
        all.values.push_back(plan::values_of(plans.with(changes)));
        report::Asked& a = all.asked.emplace_back();
        for (const plan::Change& c : changes) a.values.push_back(c.value);
    }
    if (days == 0) return all;
    for (std::size_t v = 0; v < variants.size(); ++v)
        for (const plan::Day& day : plan::days(plans.base().seed, static_cast<int>(days))) {
            all.values.push_back(plan::on(day, all.values[v]));
            report::Asked a;
            a.values = all.asked[v].values, a.day = day;
            all.asked.push_back(std::move(a));
        }
    return all;
}

void judge_run(const rehearsal::Rehearsal& run, const plan::Plan& base, const report::Cut& part, report::Asked& a, report::SheetPiece& piece) {
    const sheet::Look look = sheet::look(run.sheet(), sheet::LookAs::dried);
    judge::Verdicts v = judge::judge_run(run.plan(), run.record(), look.lstar, run.sheet().geometry);
    a.end_s = run.record().end_s;
    a.painted_whole = std::count_if(run.record().acts.begin(), run.record().acts.end(), [](const auto& act) { return act.ended; }) ==
                      static_cast<std::ptrdiff_t>(base.steps.size());
    a.edges = std::move(v.edges), a.wants = std::move(v.wants), a.windows = std::move(v.windows);
    a.weighted_kappa = v.values.weighted_kappa;
    piece.picture = report::cut(look.picture, part);
}

std::string name_of(const report::Question& question, const report::Asked& a) {
    std::string text;
    for (std::size_t k = 0; k < a.values.size(); ++k) {
        const std::string& name = question.names[k];
        text += fmt::format("{}{} {}", k == 0 ? "" : ", ", name.substr(name.rfind('.') + 1), a.values[k]);
    }
    if (a.day)
        text += fmt::format("{}humidity {:+.1f} %, water x {:.2f}, pace x {:.2f}", text.empty() ? "" : ", ", 100 * a.day->humidity_more,
                            a.day->water, a.day->pace);
    return text.empty() ? "as planned" : text;
}

void print_variants(const report::Question& question, const std::vector<report::Asked>& sheets, const std::vector<report::AskedEdge>& edges) {
    std::size_t wide = 0;
    for (const report::Asked& a : sheets) wide = std::max(wide, name_of(question, a).size());
    for (const report::Asked& a : sheets) {
        std::string found;
        for (const report::AskedEdge& e : edges) found += fmt::format("  {}: {}", e.label, report::found_text(a, e));
        fmt::print("  {:<{}}{}\n", name_of(question, a), wide, found);
    }
}

void print_shares(const plan::Plan& plan, const report::Question& question, const std::vector<report::Asked>& sheets, std::size_t variants) {
    const auto edges = report::asked_edges(plan, question, sheets);
    for (std::size_t v = 0; v < variants; ++v) {
        std::vector<const report::Asked*> days;
        for (const report::Asked& a : sheets)
            if (a.day && a.values == sheets[v].values) days.push_back(&a);
        fmt::print("{}, on {} days:\n", name_of(question, sheets[v]), days.size());
        for (const report::AskedEdge& e : edges)
            if (e.want >= 0 || e.of_varied)
                fmt::print("  {}: {}{}\n", e.label, report::share_of(days, e).text(), e.wanted.empty() ? "" : " (wanted " + e.wanted + ")");
    }
}

int digits(double seconds) { return seconds < 9.95 ? 1 : 0; }

void print_times(const rehearsal::BranchTimes& t, double wall_s) {
    const auto n = t.whole_s.size();
    double sum_cells = 0, least_s = 1e300, most_s = 0;
    for (const double s : t.whole_s) least_s = std::min(least_s, s - t.common_s), most_s = std::max(most_s, s - t.common_s);
    for (const double cells : t.whole_cells) sum_cells += cells;
    if (n < 2 || sum_cells <= 0) return;
    const double runs = t.all_cells / (sum_cells / static_cast<double>(n)); // by the work, not by how busy the machine was
    std::string text = fmt::format("{} sheets in {:.{}f} s: ", n, wall_s, digits(wall_s));
    if (t.common_s >= 0.05) text += fmt::format("{:.{}f} s of painting are common to all, ", t.common_s, digits(t.common_s));
    text += fmt::format("{:.{}f} to {:.{}f} s for each by itself", least_s, digits(least_s), most_s, digits(most_s));
    if (runs < static_cast<double>(n) - 0.05)
        text += fmt::format(". What several share is painted once: they cost as much as {:.1f} such runs", runs);
    fmt::print("{}\n", text);
}

/// What was asked, and all that is known of it at the end.
struct Answers {
    const plan::Plan& plan;
    report::Question question;
    Sheets sheets;
    std::size_t variants = 0;              ///< the first ones: as planned; then days
    std::vector<report::AskedEdge> edges;  ///< the few that are shown
    std::vector<report::Asked> planned() const {
        return {sheets.asked.begin(), sheets.asked.begin() + static_cast<std::ptrdiff_t>(variants)};
    }
};

void write_answers(Answers& a, grid::OutputFolder& out) {
    std::vector<report::SheetPiece>& pieces = a.sheets.pieces;
    for (std::size_t k = 0; k < pieces.size(); ++k) {
        pieces[k].captions.push_back(name_of(a.question, a.sheets.asked[k]));
        for (const report::AskedEdge& e : a.edges) pieces[k].captions.push_back(e.label + ": " + report::found_text(a.sheets.asked[k], e));
    }
    if (a.variants > 1) pieces.resize(a.variants); // days are shown when there is nothing else to show
    out.write("contact-sheet.png", grid::png_bytes(report::side_by_side(pieces)));
    out.write("ask.csv", report::ask_table(a.plan, a.question, a.sheets.asked));
    if (a.sheets.asked.size() > a.variants) out.write("uncertain.csv", report::uncertain_table(a.plan, a.question, a.sheets.asked));
    if (a.variants < 2) return;
    const report::LineDrawing plot = report::edge_plot_drawing(report::edge_plot(a.plan, a.question, a.planned()));
    out.write("ask.png", report::png_bytes(plot));
    out.write("ask.svg", report::svg_bytes(plot));
}

/// Nothing when the painter stopped it.
std::optional<rehearsal::BranchTimes> paint(Answers& a, const rehearsal::BranchOptions& options, bool on_terminal) {
    const auto cells = [&](double m) { return static_cast<int>(std::lround(m / options.run.cell_m)); };
    const report::Cut part = report::cut_around(a.plan, a.question.steps, cells(a.plan.width_m), cells(a.plan.height_m), margin_m);
    Sheets& sheets = a.sheets;
    sheets.pieces.resize(sheets.asked.size());
    StatusLine line(on_terminal);
    const auto times = rehearsal::play_branches(
        a.plan, sheets.values, options,
        [&](int k, const rehearsal::Rehearsal& run) { judge_run(run, a.plan, part, sheets.asked[k], sheets.pieces[k]); },
        [&](const rehearsal::BranchProgress& p) {
            line.show(fmt::format("{} of {} sheets{}", p.finished, p.of, p.left_s > 0 ? fmt::format("  about {:.0f} s left", p.left_s) : ""));
            return !stopped_by_painter();
        });
    line.clear();
    return times;
}

} // namespace

bool ask_plan(const AskOptions& o) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    const plan::Variants plans(o.plan, presets, files_from(o.outside));
    rehearsal::BranchOptions options;
    options.run.cell_m = cell_m_from(o.cell_mm, plans.base());
    const std::vector<Varied> varied = varied_of(o, plans);
    Answers a{plans.base(), {}, sheets_of(o, plans, varied), 0, {}};
    for (const Varied& v : varied) a.question.names.push_back(v.name());
    a.question.steps = steps_of(a.plan, varied);
    a.variants = static_cast<std::size_t>(std::count_if(a.sheets.asked.begin(), a.sheets.asked.end(), [](const auto& s) { return !s.day; }));
    if (!o.whole) options.stop_after = stop_after(a.plan, a.question.steps);
    begin_run(o.threads);
    options.threads = omp_get_max_threads();
    grid::OutputFolder out(o.out);

    const auto began = std::chrono::steady_clock::now();
    const auto times = paint(a, options, !o.quiet && isatty(fileno(stderr)) != 0);
    if (!times) {
        std::fputs("stopped; nothing was written\n", stderr);
        return false;
    }
    const double wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
    a.edges = report::shown_edges(report::asked_edges(a.plan, a.question, a.sheets.asked), a.sheets.asked, few);
    write_answers(a, out);
    if (stopped_by_painter()) return false;
    out.commit();
    if (o.quiet) return true;
    print_variants(a.question, a.planned(), a.edges);
    if (o.uncertain_given) print_shares(a.plan, a.question, a.sheets.asked, a.variants);
    if (!options.stop_after.empty())
        fmt::print("Each was painted until \"{}\" was done; with --whole to its end\n", a.plan.steps[options.stop_after.back()].name);
    print_times(*times, wall_s);
    fmt::print("Look at {}\n", (out.folder() / "contact-sheet.png").string());
    return true;
}

} // namespace tidemark::cli
