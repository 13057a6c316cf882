#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "grid/csv.h"
#include "grid/problem.h"

namespace tidemark::grid {

CsvWriter::CsvWriter(const std::vector<std::string>& header) : columns_(header.size()) {
    for (const std::string& name : header) cell(name);
    end_row();
}

namespace {

/// What a spreadsheet would take for a formula and reckon: a text that begins like one and is no number or time.
bool is_formula(std::string_view text) {
    if (text.size() < 2 || std::string_view("=@+-\t").find(text[0]) == std::string_view::npos) return false;
    const bool sign = text[0] == '+' || text[0] == '-';
    return !sign || text.find_first_not_of("0123456789.:e-", 1) != std::string_view::npos;
}

} // namespace

CsvWriter& CsvWriter::cell(std::string_view given) {
    if (in_row_++ > 0) text_ += ',';
    const std::string kept = is_formula(given) ? fmt::format("'{}", given) : std::string(given);
    const std::string_view text = kept;
    // A cell that starts with '#' at the head of a line would read as a comment.
    const bool quote = text.find_first_of(",\"\r\n") != std::string_view::npos ||
                       (!text.empty() && (text[0] == '#' || text[0] == ' ' || text.back() == ' '));
    if (!quote) {
        text_ += text;
        return *this;
    }
    text_ += '"';
    for (const char c : text) {
        if (c == '"') text_ += '"';
        text_ += c;
    }
    text_ += '"';
    return *this;
}

CsvWriter& CsvWriter::number(double value, int digits) {
    if (!std::isfinite(value)) return cell({});
    return cell(fmt::format("{:.{}g}", value == 0 ? 0.0 : value, std::clamp(digits, 1, 17))); // no "-0"
}

void CsvWriter::end_row() {
    if (in_row_ != columns_)
        throw InternalError(fmt::format("a row of {} cells for a table of {} columns", in_row_, columns_));
    text_ += '\n';
    in_row_ = 0;
}

std::string clock_text(double seconds) {
    if (!std::isfinite(seconds)) return {};
    const long long whole = std::llround(seconds);
    const long long size = whole < 0 ? -whole : whole;
    return fmt::format("{}{}:{:02}", whole < 0 ? "-" : "", size / 60, size % 60);
}

} // namespace tidemark::grid
