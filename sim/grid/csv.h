/// Comma-separated tables: `#` comment lines, a header, then rows. RFC 4180 quoting in both directions.
#pragma once
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace tidemark::grid {

/// A table read from a file, each cell with its place for messages. A row with too few or too many cells, a repeated
/// column or a missing header is BadInput.
class CsvTable {
  public:
    static CsvTable read(const std::filesystem::path&);
    static CsvTable parse(std::string_view text, std::string name);
    std::size_t rows() const { return lines_.size(); }
    const std::vector<std::string>& columns() const { return columns_; }
    bool has(std::string_view column) const;
    /// Errors: BadInput for an unknown column, or (number) for text that is no finite number, with row and column.
    const std::string& text(std::size_t row, std::string_view column) const;
    double number(std::size_t row, std::string_view column) const;
    std::string where(std::size_t row) const; ///< "papers.csv:7"; of a row that is not there "papers.csv"

  private:
    std::string name_;
    std::vector<std::string> columns_;
    std::vector<std::vector<std::string>> cells_;
    std::vector<int> lines_;
};

/// Rows to text. Numbers go through number(): shortest form with at most `digits` significant digits, '.' decimal in
/// any locale, empty for NaN. Text that a spreadsheet would reckon, such as "=1+1", gets an apostrophe in front: names in a
/// plan may be anybody's.
class CsvWriter {
  public:
    explicit CsvWriter(const std::vector<std::string>& header);
    CsvWriter& cell(std::string_view text);
    CsvWriter& number(double value, int digits = 6);
    void end_row(); ///< internal error when the number of cells differs from the header's
    const std::string& text() const { return text_; }

  private:
    std::size_t columns_, in_row_ = 0;
    std::string text_;
};

/// m:ss of simulated time ("7:40"), rounded to the second.
std::string clock_text(double seconds);

} // namespace tidemark::grid
