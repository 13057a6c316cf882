#include "cli/vary_options.h"

#include "cli/sheet_options.h"
#include "grid/csv.h"
#include "grid/problem.h"
#include "plan/clock.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::cli {

namespace {

constexpr const char* how = "STEP.KEY=FROM..TO/STEP or STEP.KEY=A,B,C, such as hills.wait=0:00..12:00/2:00 or hills.film_um=60,80";

std::vector<std::string> parts(const std::string& option, const std::string& whole, const std::string& text, const std::string& allowed) {
    std::vector<std::string> all;
    std::size_t from = 0;
    for (std::size_t comma = 0; comma != std::string::npos; from = comma + 1) {
        comma = text.find(',', from);
        std::string part = text.substr(from, comma == std::string::npos ? comma : comma - from);
        part.erase(0, part.find_first_not_of(' '));
        part.erase(part.find_last_not_of(' ') + 1);
        if (part.empty()) refuse(option, whole, allowed);
        if (std::find(all.begin(), all.end(), part) != all.end())
            throw grid::BadInput(option, fmt::format("\"{}\": {} stands there twice", whole, part), "each value once");
        all.push_back(part);
    }
    return all;
}

/// A time in seconds, or a number.
std::optional<double> value_of(const std::string& text, bool time) {
    if (time) return plan::seconds_from_clock(text);
    const auto n = numbers(text, "");
    return n ? std::optional((*n)[0]) : std::nullopt;
}

std::vector<std::string> range(const std::string& whole, const std::string& text) {
    const std::size_t dots = text.find(".."), slash = text.rfind('/');
    if (slash == std::string::npos || slash < dots) refuse("--vary", whole, how);
    const std::string from_text = text.substr(0, dots), to_text = text.substr(dots + 2, slash - dots - 2), by_text = text.substr(slash + 1);
    const bool time = text.find(':') != std::string::npos;
    const auto from = value_of(from_text, time), to = value_of(to_text, time), by = value_of(by_text, time);
    if (!from || !to || !by) refuse("--vary", whole, how);
    if (!(*by > 0)) throw grid::BadInput("--vary", fmt::format("\"{}\" goes on by {}", whole, by_text), "more than 0");
    if (*to < *from) throw grid::BadInput("--vary", fmt::format("\"{}\" ends at {}, before {}", whole, to_text, from_text), "the smaller value first");
    const double steps = std::floor((*to - *from) / *by + 1e-9);
    if (steps >= most_variants)
        throw grid::BadInput("--vary", fmt::format("\"{}\" makes {:.0f} variants", whole, steps + 1), fmt::format("at most {} in all", most_variants));
    std::vector<std::string> values;
    for (int k = 0; k <= static_cast<int>(steps); ++k) {
        const double value = *from + k * *by;
        values.push_back(time ? grid::clock_text(value) : fmt::format("{:.10g}", std::round(value * 1e9) / 1e9));
    }
    return values;
}

} // namespace

Varied varied_from(const std::string& text) {
    const std::size_t equals = text.find('='), point = text.rfind('.', equals);
    if (equals == std::string::npos || point == std::string::npos || point == 0 || point + 1 >= equals || equals + 1 >= text.size())
        refuse("--vary", text, how);
    Varied v{text.substr(0, point), text.substr(point + 1, equals - point - 1), {}, "--vary"};
    if (v.step == "sheet") throw grid::BadInput("--vary", fmt::format("\"{}\"", text), "--room and --paper for what is of the sheet");
    const std::string values = text.substr(equals + 1);
    v.values = values.find("..") != std::string::npos ? range(text, values) : parts("--vary", text, values, how);
    return v;
}

Varied varied_sheet(const std::string& option, const std::string& key, const std::string& text) {
    return {"sheet", key, parts(option, text, text, key + "s' ids with commas between"), option};
}

std::vector<std::vector<plan::Change>> combinations(const std::vector<Varied>& all) {
    std::size_t count = 1;
    std::string factors;
    for (std::size_t k = 0; k < all.size(); ++k) {
        for (std::size_t e = 0; e < k; ++e)
            if (all[e].name() == all[k].name()) throw grid::BadInput(all[k].option, fmt::format("{} is varied twice", all[k].name()), "once, with all its values");
        count *= std::min(all[k].values.size(), most_variants + 1);
        factors += fmt::format("{}{}", k == 0 ? "" : " x ", all[k].values.size());
        if (count > most_variants) throw grid::BadInput(all[k].option, fmt::format("{} makes more than {} variants", factors, most_variants), fmt::format("at most {}", most_variants));
    }
    std::vector<std::vector<plan::Change>> made{{}};
    for (const Varied& v : all) {
        std::vector<std::vector<plan::Change>> longer;
        for (const auto& changes : made)
            for (const std::string& value : v.values) {
                longer.push_back(changes);
                longer.back().push_back({v.step, v.key, value, v.option + " " + (v.step == "sheet" ? value : v.name() + "=" + value)});
            }
        made = std::move(longer);
    }
    return made;
}

} // namespace tidemark::cli
