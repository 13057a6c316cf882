#include "grid/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "grid/files.h"
#include "grid/problem.h"

namespace tidemark::grid {

namespace {

/// One line of the file taken apart: cells, and the number of its first line.
struct Record {
    std::vector<std::string> cells;
    int line = 0;
    bool blank = false; ///< a comment or an empty line
};

class Reader {
  public:
    Reader(std::string_view text, const std::string& name) : rest_(text), name_(name) {
        if (rest_.substr(0, 3) == "\xEF\xBB\xBF") rest_.remove_prefix(3); // byte-order mark
    }
    bool more() const { return !rest_.empty(); }

    Record next() {
        Record record;
        record.line = line_;
        if (rest_[0] == '#' || rest_[0] == '\n' || rest_.substr(0, 2) == "\r\n") {
            record.blank = true;
            const std::size_t end = rest_.find('\n');
            rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
            ++line_;
            return record;
        }
        do {
            record.cells.push_back(rest_.substr(0, 1) == "\"" ? quoted(record) : plain());
        } while (take(','));
        if (rest_.substr(0, 1) == "\r") rest_.remove_prefix(1);
        if (more() && !take('\n')) throw BadInput(at(line_), "text after a closing quote", "a comma or the line's end");
        ++line_;
        return record;
    }

  private:
    std::string at(int line) const { return fmt::format("{}:{}", name_, line); }
    bool take(char c) {
        if (rest_.empty() || rest_[0] != c) return false;
        rest_.remove_prefix(1);
        return true;
    }
    std::string plain() {
        const std::size_t end = std::min(rest_.find_first_of(",\r\n"), rest_.size());
        std::string_view cell = rest_.substr(0, end);
        rest_.remove_prefix(end);
        const auto blank = [](char c) { return c == ' ' || c == '\t'; };
        while (!cell.empty() && blank(cell.front())) cell.remove_prefix(1);
        while (!cell.empty() && blank(cell.back())) cell.remove_suffix(1);
        return std::string(cell);
    }
    std::string quoted(const Record& record) {
        take('"');
        std::string cell;
        while (more()) {
            if (take('"')) {
                if (!take('"')) return cell;
                cell += '"';
                continue;
            }
            if (rest_[0] == '\n') ++line_;
            cell += rest_[0];
            rest_.remove_prefix(1);
        }
        throw BadInput(at(record.line), "a quote is opened and never closed");
    }

    std::string_view rest_;
    const std::string& name_;
    int line_ = 1;
};

} // namespace

CsvTable CsvTable::read(const std::filesystem::path& path) { return parse(read_text(path), path.string()); }

CsvTable CsvTable::parse(std::string_view text, std::string name) {
    CsvTable table;
    table.name_ = std::move(name);
    Reader reader(text, table.name_);
    while (reader.more()) {
        Record record = reader.next();
        if (record.blank) continue;
        const std::string where = fmt::format("{}:{}", table.name_, record.line);
        if (table.columns_.empty()) {
            for (std::size_t k = 0; k < record.cells.size(); ++k) {
                const std::string& cell = record.cells[k];
                if (cell.empty()) throw BadInput(where, fmt::format("column {} has no name", k + 1));
                if (table.has(cell)) throw BadInput(where, fmt::format("column \"{}\" is there twice", cell));
                table.columns_.push_back(cell);
            }
            continue;
        }
        if (record.cells.size() != table.columns_.size())
            throw BadInput(where, fmt::format("{} cells", record.cells.size()),
                           fmt::format("{}, as in the header", table.columns_.size()));
        table.cells_.push_back(std::move(record.cells));
        table.lines_.push_back(record.line);
    }
    if (table.columns_.empty()) throw BadInput(table.name_, "no header line", "column names, separated by commas");
    return table;
}

bool CsvTable::has(std::string_view column) const {
    return std::find(columns_.begin(), columns_.end(), column) != columns_.end();
}

const std::string& CsvTable::text(std::size_t row, std::string_view column) const {
    const auto found = std::find(columns_.begin(), columns_.end(), column);
    if (found == columns_.end()) throw BadInput(name_, fmt::format("no column \"{}\"", column));
    return cells_.at(row)[static_cast<std::size_t>(found - columns_.begin())];
}

double CsvTable::number(std::size_t row, std::string_view column) const {
    const std::string& cell = text(row, column);
    double value = 0;
    const char* begin = cell.data() + (cell.size() > 1 && cell[0] == '+' && cell[1] != '-');
    const char* end = cell.data() + cell.size();
    const auto [stop, error] = std::from_chars(begin, end, value);
    if (error != std::errc() || stop != end || !std::isfinite(value))
        throw BadInput(where(row), fmt::format("column \"{}\" is \"{}\"", column, cell), "a number");
    return value;
}

std::string CsvTable::where(std::size_t row) const {
    return row < lines_.size() ? fmt::format("{}:{}", name_, lines_[row]) : name_;
}

} // namespace tidemark::grid
