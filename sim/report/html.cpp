#include "report/html.h"

#include "grid/clean_text.h"

namespace tidemark::report {

std::string escaped(std::string_view words) {
    std::string out;
    for (const char c : grid::clean_text(words, words.size()))
        switch (c) {
        case '&': out += "&amp;"; break;
        case '<': out += "&lt;"; break;
        case '>': out += "&gt;"; break;
        case '"': out += "&quot;"; break;
        case '\'': out += "&#39;"; break;
        default: out += c;
        }
    return out;
}

namespace {

/// Whether a unit begins there, and ends as a word does.
bool unit_at(std::string_view text) {
    for (const std::string_view unit : {"mm", "mL", "µL", "µm", "g/m²", "g", "%", "L*", "°C", "loads"})
        if (text.starts_with(unit))
            return text.size() == unit.size() || std::string_view(" ,.;:)").find(text[unit.size()]) != std::string_view::npos;
    return false;
}

} // namespace

std::string with_units(std::string_view words) {
    std::string out;
    for (std::size_t k = 0; k < words.size(); ++k) {
        const bool after_digit = k > 0 && words[k - 1] >= '0' && words[k - 1] <= '9';
        if (words[k] == ' ' && after_digit && unit_at(words.substr(k + 1)))
            out += "\u00a0";
        else
            out += words[k];
    }
    return out;
}

void Html::open(std::string_view tag, const Attributes& attributes) {
    text_.append("<").append(tag);
    for (const auto& [name, value] : attributes) {
        text_.append(" ").append(name).append("=\"");
        if (name == "src")
            text_ += value; // the page's own pictures: long, and nothing in them to escape
        else
            text_ += escaped(value);
        text_ += '"';
    }
    text_ += '>';
}

void Html::close(std::string_view tag) {
    text_.append("</").append(tag).append(">");
    constexpr std::string_view own_line[] = {"tr", "p", "li", "table", "section", "figure", "head", "style", "div"};
    for (const std::string_view name : own_line)
        if (tag == name)
            text_ += '\n'; // for those who read the source
}

} // namespace tidemark::report
