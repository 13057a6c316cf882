/// Numbers that are none, or written as they are elsewhere: in plans, in every table of presets, on the command line; line
/// ends, byte-order marks, names of any script and the locale of the one who runs it.
///
/// A wrong number is refused in the program itself (the command line: exit code 2, one line) or by the readers it uses; what
/// is right gives the same bytes in any locale and with any line ends.
#include <fmt/format.h>

#include <algorithm>
#include <clocale>
#include <cstdio>
#include <filesystem>
#include <regex>

#include "grid/csv.h"
#include "grid/files.h"
#include "grid/picture.h"
#include "grid/problem.h"
#include "materials/cautions.h"
#include "plan/read_plan.h"
#include "support/program_run.h"

namespace {

namespace fs = std::filesystem;
using namespace tidemark;

const std::string plan_text = R"(tidemark = 1
[sheet]
size_mm = [40, 30]
paper = "cold-pressed-300"
tilt_deg = 3
tilt_direction_deg = 80
seed = 3
room = { base = "temperate-studio", temperature_C = 22, humidity_pct = 45, air_m_s = 0.2, sun_W_m2 = 5 }
[mix.a]
PB29 = 2
gum_pct = 1.2
[area.left]
rectangle_mm = [3, 3, 18, 24]
soft_mm = 1
[[step]]
name = "wash"
do = "wash"
mix = "a"
area = "left"
film_um = 120
pace_cm2_s = 6
refill_s = 3
brush = "round-6"
[[step]]
do = "charge"
mix = "a"
drops = 4
drop_uL = 10
drop_mm = 5
each_s = 0.5
[[step]]
do = "spatter"
drops = 4
drop_mm = [0.4, 3]
)";

/// No number of the format, or one that no range holds. `1,5` and `1.234,5` are what a German hand writes.
const std::vector<std::string> bad_anywhere{"nan", "-nan", "inf", "-inf", "1e308", "-1e308", "1e400", "-1e400", "1,5", "1.234,5", "0x1p3", "1e", "--2", "\xEF\xBC\x91", "\xD9\xA3"};

struct Count {
    int plan = 0, table = 0, line = 0, text = 0, locales = 0;
    std::vector<std::string> wrong;
    void expect(bool fine, const std::string& what) {
        if (!fine) wrong.push_back(what);
    }
};

/// Problems of reading, each one line; empty: it was read.
template <class Read> std::vector<std::string> said(Read&& read) {
    try {
        read();
    } catch (const grid::BadInput& bad) {
        std::vector<std::string> lines;
        for (const auto& p : bad.problems()) lines.push_back(p.line());
        return lines;
    }
    return {};
}

bool one_line_each(const std::vector<std::string>& lines) {
    return !lines.empty() && std::all_of(lines.begin(), lines.end(), [](const std::string& s) { return s.size() > 8 && s.size() < 1000 && s.find('\n') == std::string::npos; });
}

void try_plans(Count& c, const materials::Presets& presets) {
    const std::regex number("= (\\[?)(-?[0-9.]+)");
    for (std::sregex_iterator it(plan_text.begin(), plan_text.end(), number), end; it != end; ++it)
        for (const std::string& bad : bad_anywhere) {
            std::string text = plan_text;
            text.replace(static_cast<std::size_t>(it->position(2)), static_cast<std::size_t>(it->length(2)), bad);
            if (bad == "1,5" && (*it)[1].length() > 0) continue; // in a list a comma makes two numbers: "holds 3 numbers"
            ++c.plan;
            const auto lines = said([&] { plan::read_plan_text(text, "plan.toml", presets); });
            c.expect(one_line_each(lines), fmt::format("plan with \"{}{}\" is read, or badly refused", it->str(), " -> " + bad));
        }
    for (const char* denormal : {"4.9e-324", "1e-310"}) { // is no mistake where the range begins at 0
        std::string text = plan_text;
        text.replace(text.find("tilt_deg = 3") + 11, 1, denormal);
        ++c.plan;
        c.expect(said([&] { plan::read_plan_text(text, "plan.toml", presets); }).empty(), fmt::format("tilt_deg = {} is refused", denormal));
    }
}

/// One cell of a table replaced, quoted so that a comma does not part it.
void try_tables(Count& c, const fs::path& folder) {
    for (const char* name : {"papers.csv", "paper_spectra.csv", "pigments.csv", "rooms.csv", "brushes.csv"}) {
        const tests::TemporaryFolder temporary;
        for (const char* other : {"papers.csv", "paper_spectra.csv", "pigments.csv", "rooms.csv", "brushes.csv"})
            if (std::string(other) != name) fs::create_symlink(folder / other, temporary.path() / other);
        const auto table = grid::CsvTable::read(folder / name);
        const auto with = [&](const std::string& column, const std::string& value, const char* end = "\n", const char* begin = "") {
            std::string text = begin;
            for (const std::string& col : table.columns()) text += (text.size() == std::string_view(begin).size() ? "" : ",") + col;
            for (std::size_t r = 0; r < table.rows(); ++r) {
                text += end;
                for (std::size_t k = 0; k < table.columns().size(); ++k) {
                    std::string cell = r == 0 && table.columns()[k] == column ? value : table.text(r, table.columns()[k]);
                    for (std::size_t at = 0; (at = cell.find('"', at)) != std::string::npos; at += 2) cell.insert(at, "\"");
                    text += (k ? ",\"" : "\"") + cell + "\"";
                }
            }
            return text + end;
        };
        const auto read = [&](const std::string& csv) {
            temporary.put(name, csv);
            return said([&] { materials::Presets::read(temporary.path()); });
        };
        c.expect(read(with("", "")).empty(), fmt::format("{}: written anew, it is refused", name));
        c.expect(read(with("", "", "\r\n", "\xEF\xBB\xBF")).empty(), fmt::format("{}: with CRLF and a byte-order mark it is refused", name));
        c.text += 2;
        for (const std::string& column : table.columns()) {
            try {
                table.number(0, column);
            } catch (const grid::BadInput&) {
                continue;
            }
            if (read(with(column, "nan")).empty()) continue; // kept for comparison, not read
            for (const std::string& bad : bad_anywhere) {
                ++c.table;
                const auto lines = read(with(column, bad));
                c.expect(one_line_each(lines) && lines.front().find(name) != std::string::npos, fmt::format("{}: {} = \"{}\" is read, or badly refused", name, column, bad));
            }
        }
    }
}

void try_command_line(Count& c, const tests::ProgramRun& tidemark) {
    tidemark.put("plan.toml", plan_text);
    grid::Picture p{64, 48, std::vector<std::uint8_t>(64 * 48 * 3, 230)};
    for (int y = 10; y < 40; ++y)
        for (int x = 12; x < 44; ++x)
            for (int k = 0; k < 3; ++k) p.at(x, y)[k] = x < 28 ? 40 : 130;
    tidemark.put("p.png", grid::png_bytes(p));
    const std::vector<std::string> options{
        "rehearse plan.toml --out o --cell",   "rehearse plan.toml --out o --until",  "rehearse plan.toml --out o --frames",   "rehearse plan.toml --out o --keep",
        "rehearse plan.toml --out o --threads", "look o --out a.png --at",             "ask plan.toml --out o --cell",          "ask plan.toml --out o --uncertain",
        "ask plan.toml --out o --vary wash.film_um=", "squint p.png --out o --groups", "squint p.png --out o --thresholds",      "squint p.png --out o --simplify",
        "squint p.png --out o --smallest",     "squint p.png --out o --keep-light",   "squint p.png --out o --sheet-mm",       "squint p.png --out o --crop",
        "squint p.png --out o --merge",        "squint p.png --out o --push",         "squint p.png --out o --split",          "squint p.png --out o --pace",
        "squint p.png --out o --start",        "draft p.png --out o --groups",        "draft p.png --out o --smallest",        "transfer p.png --out a.pdf --sheet-mm",
        "transfer p.png --sheet-mm 80x60 --out a.pdf --grid", "transfer p.png --sheet-mm 80x60 --out a.pdf --eye-line", "transfer p.png --sheet-mm 80x60 --out a.pdf --head",
        "transfer p.png --sheet-mm 80x60 --out a.pdf --standing", "lesson lap --out o --cell", "lesson lap --out o --threads"};
    std::vector<std::string> values = bad_anywhere;
    for (const char* more : {"", "''", "0x10", "-1", "1e-320,5", "3:nan", "nanxnan", "1e308x1e308", "infxinf", "nan,nan", "1:nan,1-2,2", "1:1e308,1-2,2", "99:99,999", "1:75", "1:-5"})
        values.emplace_back(more);
    for (const std::string& option : options)
        for (const std::string& value : values) {
            if (value == "-1" && (option.ends_with("--push") || option.ends_with("--merge"))) continue;
            if (value == "1,5" && (option.ends_with("--keep-light") || option.ends_with("--start") || option.ends_with("--head") || option.ends_with("--thresholds") || option.ends_with("film_um="))) continue; // two numbers there
            ++c.line;
            const std::string gap = option.back() == '=' ? "" : " ";
            const tests::Said said = tidemark(option + gap + value);
            const auto lines = std::count(said.err.begin(), said.err.end(), '\n');
            if (said.code != 2 || lines < 1 || lines > 2 || said.err.find("internal") != std::string::npos)
                c.wrong.push_back(fmt::format("tidemark {}{}{}: exit code {}, {}", option, gap, value, said.code, said.err));
            if (fs::exists(tidemark.path("a.pdf")) || fs::exists(tidemark.path("o"))) {
                c.wrong.push_back(fmt::format("tidemark {}{}{}: something was written", option, gap, value));
                fs::remove_all(tidemark.path("o")), fs::remove(tidemark.path("a.pdf"));
            }
        }
}

std::string with_line_ends(const std::string& text, const std::string& end) {
    std::string out;
    for (const char ch : text) out += ch == '\n' ? end : std::string(1, ch);
    return out;
}

/// All results but the report, in which the plan's own name stands.
std::string results(const tests::ProgramRun& tidemark, const std::string& folder) {
    std::string all;
    for (const char* name : {"sheet.png", "edges.csv", "windows.csv", "ledger.csv", "mixes.csv", "record.csv"}) all += tidemark.bytes(folder + "/" + name);
    return all;
}

void try_texts(Count& c, const tests::ProgramRun& tidemark) {
    const auto rehearse = [&](const std::string& file, const std::string& out, const std::string& before = "") {
        // The program is called by a shell: what stands before it is its environment.
        const std::string arguments = fmt::format("rehearse \"{}\" --out \"{}\" --cell 2 --until 6:00 --threads 1", file, out);
        ++c.text;
        const tests::Said said = before.empty() ? tidemark(arguments) : tidemark("--version >/dev/null; " + before + " TIDEMARK_PRESETS='" TIDEMARK_PRESETS_DIR "' '" TIDEMARK_PROGRAM "' " + arguments);
        c.expect(said.code == 0, fmt::format("{} {}: exit code {}, {}", before, arguments, said.code, said.err));
        return std::pair{results(tidemark, out), said.out};
    };
    tidemark.put("plan.toml", plan_text);
    const auto plain = rehearse("plan.toml", "plain");
    c.expect(plain.first.size() > 2000, "nothing was written");
    const std::pair<const char*, std::string> same[] = {
        {"crlf.toml", with_line_ends(plan_text, "\r\n")}, {"mark.toml", "\xEF\xBB\xBF" + plan_text}, {"both.toml", "\xEF\xBB\xBF" + with_line_ends(plan_text, "\r\n")},
        {"ohne Ende.toml", plan_text.substr(0, plan_text.size() - 1)}};
    for (const auto& [name, text] : same) {
        tidemark.put(name, text);
        c.expect(rehearse(name, std::string("out of ") + name).first == plain.first, fmt::format("{} gives other results", name));
    }
    fs::create_directories(tidemark.path("\xC3\x9C" "bung am Flu\xC3\x9F"));
    const std::string far = "\xC3\x9C" "bung am Flu\xC3\x9F/pl\xC3\xA4n \xE6\xB0\xB4.toml";
    std::string named = plan_text;
    for (std::size_t at = 0; (at = named.find("\"wash\"\ndo")) != std::string::npos; ++at) named.replace(at, 6, "\"Himmel \xC3\xBC" "ber dem Meer \xE6\xB0\xB4\xE5\xBD\xA9\"");
    tidemark.put(far, named);
    const auto there = rehearse(far, "\xC3\x9C" "bung am Flu\xC3\x9F/Blatt 1");
    c.expect(there.first.find("Himmel \xC3\xBC" "ber dem Meer \xE6\xB0\xB4\xE5\xBD\xA9") != std::string::npos, "a name in UTF-8 does not come back");
    const char* german = std::getenv("TIDEMARK_TRUST_LOCALE"); // "LOCPATH=... LC_ALL=de_DE.UTF-8", by group-numbers
    for (const std::string& locale : {std::string("LC_ALL=C"), std::string("LC_ALL=POSIX LANG=tr_TR.UTF-8"), std::string(german ? german : "")})
        if (!locale.empty()) {
            ++c.locales;
            const auto here = rehearse("plan.toml", "locale " + std::to_string(c.locales), locale);
            c.expect(here.first == plain.first, locale + ": other results");
        }
}

} // namespace

int main() {
    Count c;
    const fs::path folder = TIDEMARK_PRESETS_DIR;
    const auto presets = materials::Presets::read(folder);
    c.expect(said([&] { plan::read_plan_text(plan_text, "plan.toml", presets); }).empty(), "the plan itself is refused");
    const char* german = std::getenv("TIDEMARK_TRUST_SETLOCALE"); // readers must not ask the process's locale
    int rounds = 0;
    for (const char* locale : {"C", german}) {
        if (locale == nullptr) continue;
        if (std::setlocale(LC_ALL, locale) == nullptr) {
            c.wrong.push_back(std::string("no locale ") + locale);
            continue;
        }
        ++rounds;
        if (rounds > 1) c.expect(std::localeconv()->decimal_point[0] == ',', "this locale has no decimal comma: nothing is tried by it");
        try_plans(c, presets);
        try_tables(c, folder);
    }
    std::setlocale(LC_ALL, "C");
    const tests::ProgramRun tidemark;
    try_command_line(c, tidemark);
    try_texts(c, tidemark);
    for (const std::string& line : c.wrong) fmt::print("{}\n", line);
    fmt::print("wrong numbers: {} in plans, {} in tables, {} on the command line; {} texts, {} locales of the program, {} of the readers, {} wrong\n", c.plan, c.table, c.line, c.text,
               c.locales, rounds, c.wrong.size());
    return c.wrong.empty() ? 0 : 1;
}
