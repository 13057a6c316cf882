/// Every number that a plan or a table may hold, at both ends of its range, for an hour of a small sheet: the ledger closes,
/// nothing is negative, nothing is no number.
///
/// What the ranges are is asked of the readers: a number far out of one is refused with what is allowed. A range from 0 on is
/// tried with the least number above it, too. An end that the reader refuses beside the other values of its row (a receding
/// angle above the advancing one) is counted as refused.
#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <omp.h>

#include <atomic>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <mutex>
#include <regex>
#include <set>
#include <thread>

#include "grid/calm_threads.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "plan/read_plan.h"
#include "rehearsal/rehearsal.h"
#include "sheet/ledger.h"
#include "support/temporary_folder.h"
#include "trust/sound.h"

TIDEMARK_CALM_THREADS

namespace {

namespace fs = std::filesystem;
using namespace tidemark;

constexpr double cell_m = 2e-3, hour_s = 3600;
constexpr const char *out_of_range = "1e300", *least_above_0 = "4.9e-324";

/// One number changed: in a table (row 0 of a copy that holds the rows of `ids` alone), or in a plan's text.
struct Case {
    std::string what; ///< "papers.csv: relief_rms_um = 200"
    std::string plan;
    std::string table, csv; ///< a table in place of the preset; empty: none
};

const std::string beginning = "tidemark = 1\n[sheet]\nsize_mm = [40, 30]\npaper = \"cold-pressed-300\"\n";
const std::string paints = "[mix.a]\nPB29 = 2\nPBr7-burnt-sienna = 0.5\ngum_pct = 1.2\n[area.left]\nrectangle_mm = [3, 3, 18, 24]\nsoft_mm = 1\n";
const std::string wet = "[[step]]\ndo = \"wet\"\nside = \"both\"\nwater_g_m2 = 150\npace_cm2_s = 40\n";
const std::string wash = "[[step]]\nname = \"wash\"\ndo = \"wash\"\nmix = \"a\"\narea = \"left\"\nfilm_um = 120\npace_cm2_s = 6\n";
const std::string drops = "[[step]]\ndo = \"charge\"\nmix = \"a\"\narea = \"left\"\ndrops = 4\ndrop_uL = 10\ndrop_mm = 5\neach_s = 0.5\n";

/// Plans of an act or two each, so that a number is tried beside ordinary ones.
std::vector<std::string> plans() {
    const std::string start = beginning + paints;
    return {
        beginning + "tilt_deg = 5\ntilt_direction_deg = 90\nseed = 3\nroom = { base = \"temperate-studio\", temperature_C = 22, humidity_pct = 45, air_m_s = 0.2, "
                    "sun_W_m2 = 50 }\n" + paints + wet + wash + drops,
        beginning + "board = \"open\"\nroom = { base = \"dry-heated-studio\", temperature_C = 22, humidity_pct = 45, air_m_s = 0.2, sun_W_m2 = 50 }\n" + paints + wet + wash,
        start + "[area.round]\nellipse_mm = [20, 15, 12, 10]\nsoft_mm = 2\n[area.line]\nline_mm = [[3, 3], [30, 20]]\nwidth_mm = 3\n" + wash +
            "[[step]]\ndo = \"wash\"\nmix = \"a\"\narea = \"round\"\nfilm_um = 100\npace_cm2_s = 6\nbrush = \"round-6\"\nrefill_s = 4\n"
            "[[step]]\ndo = \"wash\"\nmix = \"a\"\narea = \"line\"\nfilm_um = 100\n",
        start + wash + "[[step]]\ndo = \"charge\"\nmix = \"a\"\nstrokes = 4\nstroke_mm = 5\ndrop_uL = 10\ndrop_mm = 5\neach_s = 0.5\n",
        start + wash + "[[step]]\ndo = \"lift\"\ntool = \"sponge\"\npace_cm2_s = 5\nafter = \"wash\"\nwait = \"2:00\"\n",
        start + wash + "[[step]]\ndo = \"spatter\"\nmix = \"a\"\ndrops = 20\ndrop_mm = [0.4, 3]\nseconds = 5\n",
        start + wash + "[[step]]\ndo = \"spray\"\nwater_g_m2 = 40\ndroplet_mm = 0.3\nseconds = 5\n",
        start + "[[step]]\ndo = \"drybrush\"\nmix = \"a\"\nfilm_um = 40\nshare = 0.4\npace_cm2_s = 10\n",
        start + wash + "[[step]]\ndo = \"soften\"\narea = \"left\"\nwidth_mm = 6\nwater_g_m2 = 40\nspeed_cm_s = 3\n",
        start + "[[step]]\ndo = \"reserve\"\narea = \"left\"\npace_cm2_s = 3\n" + wet + "[[step]]\ndo = \"uncover\"\narea = \"left\"\npace_cm2_s = 10\n",
        start + wet + "[[step]]\ndo = \"body\"\nmix = \"a\"\narea = \"left\"\npaint_g_m2 = 60\npace_cm2_s = 2\n",
        start + wash + "[[step]]\ndo = \"tilt\"\nangle_deg = 10\ndirection_deg = 20\n",
        start + wash + "[[step]]\ndo = \"dry\"\nuntil = \"dry\"\nshare = 0.9\nlongest = \"30:00\"\nwarm_air = true\nair_C = 50\nair_m_s = 2\nblows_deg = 10\n" + wash.substr(0, 9) +
            "name = \"again\"\n" + wash.substr(wash.find("do")),
    };
}

/// What an out-of-range number is told: the two ends; none when the message is about something else.
std::vector<std::string> ends_in(const std::string& allowed) {
    static const std::regex range("(?:more than )?(-?[0-9.]+(?:e[-+]?[0-9]+)?)(?: to |, up to )(-?[0-9.]+(?:e[-+]?[0-9]+)?)");
    std::smatch found;
    if (!std::regex_search(allowed, found, range)) return {};
    std::vector<std::string> ends{found[1], found[2]};
    if (std::stod(ends[0]) == 0) ends.emplace_back(least_above_0);
    if (allowed.starts_with("more than")) ends.erase(ends.begin());
    return ends;
}

struct Tried {
    int cases = 0, refused = 0;
    std::set<std::string> numbers; ///< keys and columns
    std::vector<std::string> wrong;
};

/// Empty: fine; "refused": by the reader.
std::string tried(const Case& c, const fs::path& presets_folder) {
    try {
        materials::Presets presets;
        if (c.table.empty()) {
            presets = materials::Presets::read(presets_folder);
        } else {
            const tests::TemporaryFolder folder;
            for (const char* name : {"papers.csv", "paper_spectra.csv", "pigments.csv", "rooms.csv", "brushes.csv"})
                if (name != c.table) fs::create_symlink(presets_folder / name, folder.path() / name);
            folder.put(c.table, c.csv);
            presets = materials::Presets::read(folder.path());
        }
        const plan::Plan plan = plan::read_plan_text(c.plan, "plan.toml", presets);
        rehearsal::Rehearsal run(plan, {.cell_m = cell_m, .until_s = hour_s});
        long n = 0;
        for (bool more = true; more;) {
            more = run.step();
            if (++n % 8 == 0 || !more)
                if (const std::string fault = trust::unsound(run.sheet()); !fault.empty()) return fmt::format("{} at {:.1f} s", fault, run.time_s());
        }
        for (const auto& line : run.record().ledger)
            if (!(line.water_closure <= sheet::ledger_tolerance && line.pigment_closure <= sheet::ledger_tolerance))
                return fmt::format("the ledger at {:.0f} s: water {:.2g}, pigment {:.2g}", line.time_s, line.water_closure, line.pigment_closure);
        return {};
    } catch (const grid::BadInput&) {
        return "refused";
    } catch (const std::exception& e) {
        return e.what();
    }
}

template <class Read> std::string allowed_of(Read&& read, const std::string& key) {
    try {
        read();
    } catch (const grid::BadInput& bad) {
        for (const grid::Problem& p : bad.problems())
            if (p.what.find(key) != std::string::npos && !ends_in(p.allowed).empty()) return p.allowed;
    }
    return {};
}

/// Numbers behind a "key = " anywhere in a plan.
void add_plan_cases(std::vector<Case>& cases, Tried& t, const materials::Presets& presets) {
    const std::regex number("([A-Za-z_0-9-]+) = (-?[0-9.]+)");
    for (const std::string& text : plans())
        for (std::sregex_iterator it(text.begin(), text.end(), number), end; it != end; ++it) {
            const std::string key = (*it)[1];
            if (key == "tidemark") continue;
            const auto with = [&](const std::string& value) {
                return text.substr(0, static_cast<std::size_t>(it->position(2))) + value + text.substr(static_cast<std::size_t>(it->position(2) + it->length(2)));
            };
            const bool whole = key == "seed" || key == "drops" || (key == "strokes");
            const std::string allowed = allowed_of([&] { plan::read_plan_text(with(whole ? "-1" : out_of_range), "plan.toml", presets); }, key);
            if (allowed.empty()) {
                t.wrong.push_back("plan: " + key + ": a number far out of range is not refused with a range");
                continue;
            }
            t.numbers.insert("plan " + key);
            for (const std::string& value : ends_in(allowed))
                if (!whole || value != least_above_0) cases.push_back({fmt::format("plan: {} = {}", key, value), with(value), {}, {}});
        }
}

std::string csv_cell(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

/// The table's rows of these ids, one cell changed.
std::string csv_with(const grid::CsvTable& table, const std::vector<std::string>& ids, const std::string& column, const std::string& value) {
    std::string text;
    for (const std::string& c : table.columns()) text += (text.empty() ? "" : ",") + csv_cell(c);
    for (std::size_t r = 0; r < table.rows(); ++r) {
        const std::string id = table.text(r, "id");
        if (std::find(ids.begin(), ids.end(), id) == ids.end()) continue;
        text += "\n";
        for (const std::string& c : table.columns())
            text += (c == table.columns().front() ? "" : ",") + csv_cell(c == column && id == ids.front() ? value : table.text(r, c));
    }
    return text + "\n";
}

void add_table_cases(std::vector<Case>& cases, Tried& t, const fs::path& folder, const std::string& name, const std::vector<std::string>& ids,
                     const std::string& plan) {
    const grid::CsvTable table = grid::CsvTable::read(folder / name);
    std::size_t row = 0;
    while (table.text(row, "id") != ids.front()) ++row;
    for (const std::string& column : table.columns()) {
        try {
            table.number(row, column);
        } catch (const grid::BadInput&) {
            continue; // words
        }
        const std::string allowed = allowed_of(
            [&] {
                const tests::TemporaryFolder temporary;
                for (const char* other : {"papers.csv", "paper_spectra.csv", "pigments.csv", "rooms.csv", "brushes.csv"})
                    if (other != name) fs::create_symlink(folder / other, temporary.path() / other);
                temporary.put(name, csv_with(table, ids, column, out_of_range));
                materials::Presets::read(temporary.path());
            },
            column);
        if (allowed.empty()) continue; // not read by the program: kept for comparison
        t.numbers.insert(name + " " + column);
        for (const std::string& value : ends_in(allowed))
            cases.push_back({fmt::format("{}: {} = {}", name, column, value), plan, name, csv_with(table, ids, column, value)});
    }
}

} // namespace

int main(int argc, char** argv) {
    CLI::App options{"numbers at both ends of their ranges, for an hour"};
    bool verbose = false;
    options.add_flag("--verbose", verbose, "a line a case");
    CLI11_PARSE(options, argc, argv);
    const fs::path folder = grid::presets_folder();
    const auto presets = materials::Presets::read(folder);
    Tried t;
    std::vector<Case> cases;
    add_plan_cases(cases, t, presets);
    const std::string all = beginning + paints + wet + wash + drops +
                            "[[step]]\nname = \"brushed\"\ndo = \"wash\"\nmix = \"a\"\nfilm_um = 90\nbrush = \"round-6\"\nafter = \"wash\"\nwait = \"8:00\"\n";
    add_table_cases(cases, t, folder, "papers.csv", {"cold-pressed-300"}, all);
    add_table_cases(cases, t, folder, "pigments.csv", {"PB29", "PBr7-burnt-sienna"}, all);
    add_table_cases(cases, t, folder, "rooms.csv", {"temperate-studio"}, all);
    add_table_cases(cases, t, folder, "brushes.csv", {"round-6"}, all);
    std::atomic<std::size_t> next = 0;
    std::mutex one;
    std::vector<std::thread> workers;
    for (int k = 0; k < std::max(1, omp_get_num_procs()); ++k)
        workers.emplace_back([&] {
            omp_set_num_threads(1);
            for (std::size_t n; (n = next++) < cases.size();) {
                const std::string fault = tried(cases[n], folder);
                const std::lock_guard lock(one);
                ++t.cases;
                if (verbose) fmt::print("{}: {}\n", cases[n].what, fault.empty() ? "fine" : fault);
                if (fault == "refused") ++t.refused;
                else if (!fault.empty()) t.wrong.push_back(cases[n].what + ": " + fault);
            }
        });
    for (auto& w : workers) w.join();
    for (const std::string& line : t.wrong) fmt::print("{}\n", line);
    fmt::print("ends of ranges: {} numbers, {} cases of an hour, {} of them refused beside the others of their row, {} wrong\n", t.numbers.size(), t.cases, t.refused,
               t.wrong.size());
    return t.wrong.empty() && t.numbers.size() > 60 ? 0 : 1;
}
