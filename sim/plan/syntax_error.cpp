#include "grid/problem.h"
#include "plan/document_detail.h"
#include "plan/problems_detail.h"

#include <algorithm>
#include <fmt/format.h>
#include <regex>
#include <tuple>

namespace tidemark::plan {

namespace {

std::string line_text(std::string_view text, int line) {
    for (int k = 1; k < line; ++k) {
        const std::size_t end = text.find('\n');
        if (end == std::string_view::npos)
            return {};
        text.remove_prefix(end + 1);
    }
    return std::string(text.substr(0, text.find_first_of("\r\n")));
}

struct Said {
    std::string what, allowed;
};

/// The slips that people make, by what the line looks like. Empty when it is none of them.
Said usual_slip(const std::string& line) {
    if (line.size() > 400)
        return {}; // the matcher recurses
    std::smatch m;
    static const std::regex no_value(R"(=\s*(#.*)?$)");
    if (std::regex_search(line, no_value))
        return {"no value behind the =", "a number, or text in quotes"};
    if (std::count(line.begin(), line.end(), '"') % 2 == 1)
        return {"a quote opened and not closed on its line", "\"...\""};
    static const std::regex decimal_comma(R"(=\s*([+-]?\d+,\d+)\s*(#.*)?$)");
    if (std::regex_search(line, m, decimal_comma)) {
        std::string point = m[1];
        point[point.find(',')] = '.';
        return {fmt::format("{} is no number", m[1].str()), "a point as decimal mark, " + point};
    }
    static const std::regex bare_time(R"(=\s*(\d+:\d+)\s*(#.*)?$)");
    if (std::regex_search(line, m, bare_time))
        return {fmt::format("{} without quotes", m[1].str()), fmt::format("a time in quotes, \"{}\"", m[1].str())};
    static const std::regex bare_colon(R"((^|[{,])\s*([A-Za-z]+\d+:\d+)\s*=)");
    if (std::regex_search(line, m, bare_colon))
        return {fmt::format("{} without quotes", m[2].str()),
                fmt::format("a name with a colon in quotes, \"{}\"", m[2].str())};
    static const std::regex with_unit(R"(=\s*([+-]?\d+(\.\d+)?)\s*([A-Za-z%][A-Za-z0-9/%]*)\s*(#.*)?$)");
    if (std::regex_search(line, m, with_unit))
        return {fmt::format("{} {} is no number", m[1].str(), m[3].str()),
                "the number alone; its unit is in the key's name"};
    static const std::regex bare_word(R"(=\s*([A-Za-z][A-Za-z0-9_ ./-]*[A-Za-z0-9])\s*(#.*)?$)");
    if (std::regex_search(line, m, bare_word) && m[1] != "true" && m[1] != "false")
        return {fmt::format("{} without quotes", m[1].str()), fmt::format("text in quotes, \"{}\"", m[1].str())};
    return {};
}

/// A heading that lost a bracket or holds a space, a key without its =, a comma behind a value. By the line alone.
Said heading_or_key_slip(const std::string& line) {
    if (line.size() > 400)
        return {};
    std::smatch m;
    static const std::regex heading(R"(^\s*(\[{0,2})\s*([A-Za-z0-9_.-]+)\s*(\]{0,2})\s*(#.*)?$)");
    if (std::regex_search(line, m, heading) && (m[1].length() > 0 || m[3].length() > 0) &&
        m[1].length() != m[3].length()) {
        const std::string name = m[2];
        const bool many = name == "step" || name == "want";
        return {fmt::format("{}{}{} lacks a bracket", m[1].str(), name, m[3].str()),
                many ? fmt::format("[[{}]]", name) : fmt::format("[{}]", name)};
    }
    static const std::regex parted(R"(^\s*\[\s*(area|mix)[. ]\s*([^\]"]*[^\]" ])\s*\])");
    if (std::regex_search(line, m, parted) && m[2].str().find(' ') == std::string::npos)
        return {fmt::format("[{} {}] holds a space", m[1].str(), m[2].str()),
                fmt::format("[{}.{}]", m[1].str(), m[2].str())};
    if (std::regex_search(line, m, parted))
        return {in_quotes(m[2]) + " holds a space",
                fmt::format("a name with spaces in quotes, [{}.\"{}\"]", m[1].str(), m[2].str())};
    static const std::regex no_equals(R"(^\s*([A-Za-z_][A-Za-z0-9_]*)\s*:?\s*["\[{0-9+-])");
    if (std::regex_search(line, m, no_equals) && line.find('=') == std::string::npos)
        return {fmt::format("no = behind {}", m[1].str()), fmt::format("{} = ...", m[1].str())};
    static const std::regex bare_list(R"(=\s*(\d[\d.]*(\s*,\s*\d[\d.]*)+)\s*\]?\s*(#.*)?$)");
    if (std::regex_search(line, m, bare_list))
        return {"a list that does not begin with [", fmt::format("[{}]", m[1].str())};
    static const std::regex trailing(R"(=.*[^,;\s]\s*([,;])\s*(#.*)?$)");
    if (std::regex_search(line, m, trailing))
        return {fmt::format("a {} behind the value", m[1] == "," ? "comma" : "semicolon"),
                "nothing behind it but a # comment"};
    return {};
}

/// A list or a { } that was not closed is noticed on a later line only: the line on which it opened, 0 for none.
int where_opened(std::string_view text, int line, char open, char close) {
    for (int k = line, depth = 0; k >= 1 && k > line - 200; --k) {
        const std::string here = line_text(text, k);
        depth += static_cast<int>(std::count(here.begin(), here.end(), open) -
                                  std::count(here.begin(), here.end(), close));
        if (here.find('=') != std::string::npos && depth > 0)
            return k;
    }
    return 0;
}

/// "... cannot redefine existing table 'sheet'" or "... existing array 'step' as table".
Said told_twice(const std::string& complaint) {
    if (complaint.size() > 400)
        return {};
    std::smatch m;
    static const std::regex redefined(R"(cannot redefine existing (.*) '(.*)'( as .*)?$)");
    if (!std::regex_search(complaint, m, redefined))
        return {};
    const std::string name = m[2];
    if (!m[3].matched)
        return {in_quotes(name) + " is there twice", "once"};
    if (name == "step" || name == "want")
        return {fmt::format("[{0}] and [[{0}]] in one plan", name), fmt::format("[[{}]] each time", name)};
    return {in_quotes(name) + " is there twice, in two shapes", "once"};
}

} // namespace

void throw_syntax_error(std::string_view text, const std::string& file, int line, const std::string& complaint) {
    const std::string where = fmt::format("{}:{}", file, line);
    if (complaint.find("utf-8") != std::string::npos)
        throw grid::BadInput(where, "letters that are not UTF-8", "a text file saved as UTF-8");
    Said said = told_twice(complaint);
    for (const auto& [kind, open, close] : {std::tuple("array:", '[', ']'), std::tuple("inline table:", '{', '}')}) {
        const int opened = complaint.find(kind) == std::string::npos ? 0 : where_opened(text, line, open, close);
        if (said.what.empty() && opened > 0 && usual_slip(line_text(text, opened)).what.empty())
            throw grid::BadInput(fmt::format("{}:{}", file, opened), fmt::format("a {} opened and not closed", open),
                                 fmt::format("a {} behind the last value", close));
    }
    if (said.what.empty())
        said = usual_slip(line_text(text, line));
    if (said.what.empty())
        said = heading_or_key_slip(line_text(text, line));
    if (said.what.empty() && complaint.find("array: expected comma") != std::string::npos)
        said = {"a list whose values no comma parts", "[1, 2]"};
    if (!said.what.empty())
        throw grid::BadInput(where, said.what, said.allowed);
    std::string plain = complaint;
    const std::string opening = "Error while parsing ";
    if (plain.rfind(opening, 0) == 0)
        plain.erase(0, opening.size());
    for (char& c : plain)
        if (static_cast<unsigned char>(c) < 0x20)
            c = ' ';
    throw grid::BadInput(where, "not valid TOML: " + plain);
}

} // namespace tidemark::plan
