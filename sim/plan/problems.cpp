#include "plan/problems_detail.h"

#include <algorithm>
#include <fmt/format.h>

namespace tidemark::plan {

namespace {
constexpr std::size_t most_problems = 100; ///< more says nothing more
constexpr std::size_t longest_shown = 60;  ///< bytes of a text in a message
} // namespace

void Problems::add(int line, const std::string& what, const std::string& allowed) {
    found_.push_back({line, {where(line), what, allowed}});
}

void Problems::add(int line, const grid::BadInput& bad) {
    for (const grid::Problem& problem : bad.problems())
        found_.push_back({line, problem});
}

std::string Problems::where(int line) const {
    return line < 0 ? called_[static_cast<std::size_t>(-line - 1)] : fmt::format("{}:{}", file_, line);
}

int Problems::line_called(const std::string& name) {
    called_.push_back(name);
    return -static_cast<int>(called_.size());
}

void Problems::throw_if_any() {
    if (found_.empty())
        return;
    std::stable_sort(found_.begin(), found_.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<grid::Problem> problems;
    for (const auto& [line, problem] : found_) {
        if (problems.size() == most_problems) {
            problems.push_back({where(line), fmt::format("and {} more problems", found_.size() - most_problems), ""});
            break;
        }
        problems.push_back(problem);
    }
    throw grid::BadInput(problems);
}

std::size_t control_at(std::string_view text, std::size_t from) {
    for (std::size_t k = from; k < text.size(); ++k) {
        const auto c = static_cast<unsigned char>(text[k]);
        if (c < 0x20 || c == 0x7F || (c == 0xC2 && k + 1 < text.size() && static_cast<unsigned char>(text[k + 1]) < 0xA0))
            return k;
    }
    return std::string_view::npos;
}

std::string in_quotes(const std::string& given) {
    std::string text, shown;
    for (std::size_t from = 0; from <= given.size();) {
        const std::size_t at = std::min(control_at(given, from), given.size());
        text.append(given, from, at - from);
        if (at == given.size())
            break;
        text += ' ';
        from = at + (static_cast<unsigned char>(given[at]) == 0xC2 ? 2 : 1);
    }
    for (const char c : text) {
        const bool starts_letter = (static_cast<unsigned char>(c) & 0xC0) != 0x80; // not inside a UTF-8 sequence
        if (shown.size() >= longest_shown && starts_letter)
            return fmt::format("\"{}...\"", shown);
        shown += c;
    }
    return fmt::format("\"{}\"", shown);
}

namespace {

std::string listed(const std::vector<std::string>& names) {
    const std::size_t shown = std::min<std::size_t>(names.size(), 40);
    std::string list = fmt::format("{}", fmt::join(names.begin(), names.begin() + static_cast<long>(shown), ", "));
    return shown < names.size() ? list + ", ..." : list;
}

} // namespace

Hint hint(const std::string& wrong, const std::vector<std::string>& names, const std::string& none) {
    if (names.empty())
        return {"", none};
    std::vector<std::string> begun;
    for (const std::string& name : names)
        if (!wrong.empty() && name.size() > wrong.size() && name.compare(0, wrong.size(), wrong) == 0 &&
            std::string("_-:").find(name[wrong.size()]) != std::string::npos)
            begun.push_back(name);
    if (begun.size() == 1)
        return {"; did you mean \"" + begun[0] + "\"?", ""};
    if (!begun.empty())
        return {"", listed(begun)};
    const std::string nearest = grid::did_you_mean(wrong, names);
    return nearest.empty() ? Hint{"", listed(names)} : Hint{nearest, ""};
}

} // namespace tidemark::plan
