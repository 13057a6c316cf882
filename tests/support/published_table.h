/// The README's table of published checks, and whether the lines that the tests leave still say the same.
#pragma once
#include <cmath>
#include <cstdlib>
#include <map>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace tidemark::tests {

struct PublishedRow {
    std::string expected, got, tolerance;
    double figure = NAN, may_differ = 0; ///< of a line alone
    bool met = true;
};
using PublishedRows = std::map<std::pair<std::string, std::string>, PublishedRow>; ///< by what and source

inline std::vector<std::string> split(const std::string& text, const std::string& between) {
    std::vector<std::string> parts;
    std::size_t from = 0;
    for (std::size_t at; (at = text.find(between, from)) != std::string::npos; from = at + between.size())
        parts.push_back(text.substr(from, at - from));
    parts.push_back(text.substr(from));
    return parts;
}

/// From what tests/support/published.cpp writes. A row that is there twice is a mistake and left in `twice`.
inline PublishedRows rows_of_lines(const std::string& text, std::vector<std::string>& twice) {
    PublishedRows rows;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
        if (const auto f = split(line, "\t"); f.size() == 10)
            if (!rows.insert({{f[2], f[3]},
                              {f[4], f[5], f[6], std::strtod(f[7].c_str(), nullptr),
                               std::strtod(f[8].c_str(), nullptr), f[9] == "met"}})
                     .second)
                twice.push_back(f[2]);
    return rows;
}

/// Rows between the two markers with five cells and a source: neither the heading nor a subject's name.
inline PublishedRows rows_of_readme(const std::string& text) {
    const std::size_t begin = text.find("<!-- published checks: begin"),
                      end = text.find("<!-- published checks: end");
    PublishedRows rows;
    if (begin == std::string::npos || end == std::string::npos || end < begin)
        return rows;
    std::istringstream lines(text.substr(begin, end - begin));
    for (std::string line; std::getline(lines, line);)
        if (line.size() > 4 && line.starts_with("| "))
            if (const auto f = split(line.substr(2, line.size() - 4), " | "); f.size() == 5 && f[1] != "source")
                rows[{f[0], f[1]}] = {f[2], f[3], f[4]};
    return rows;
}

/// What the README says otherwise: the text must be the same, the figure within a tenth of the tolerance, for other
/// compilers differ in its last digit.
inline std::vector<std::string> stale_rows(const PublishedRows& readme, const PublishedRows& lines) {
    std::vector<std::string> stale;
    for (const auto& [name, line] : lines) {
        const auto shown = readme.find(name);
        if (shown == readme.end())
            stale.push_back("not in the README: " + name.first + " (" + name.second + ")");
        else if (shown->second.expected != line.expected || shown->second.tolerance != line.tolerance)
            stale.push_back(name.first + ": the README expects " + shown->second.expected + ", " +
                            shown->second.tolerance + "; the test " + line.expected + ", " + line.tolerance);
        else if (!(std::abs(std::strtod(shown->second.got.c_str(), nullptr) - line.figure) <= line.may_differ))
            stale.push_back(name.first + ": the README got " + shown->second.got + ", the test " + line.got);
        if (!line.met)
            stale.push_back("not met: " + name.first);
    }
    for (const auto& [name, shown] : readme)
        if (lines.count(name) == 0)
            stale.push_back("no test says: " + name.first + " (" + name.second + ")");
    return stale;
}

} // namespace tidemark::tests
