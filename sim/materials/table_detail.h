/// A preset table on its way in: every problem of every row is collected, none is thrown.
#pragma once
#include "grid/csv.h"
#include "grid/problem.h"

#include <filesystem>
#include <string>
#include <vector>

namespace tidemark::materials {

/// One row, read cell by cell. After a problem the value is NaN or empty and fine() is false.
class Row {
  public:
    Row(const grid::CsvTable& table, std::size_t row, std::vector<grid::Problem>& problems)
        : table_(table), row_(row), problems_(problems) {}
    std::string text(const std::string& column);
    double number(const std::string& column);
    void refuse(const std::string& what, const std::string& allowed);
    std::string where() const { return table_.where(row_); }
    bool fine() const { return fine_; }

  private:
    const grid::CsvTable& table_;
    std::size_t row_;
    std::vector<grid::Problem>& problems_;
    bool fine_ = true;
};

void append(std::vector<grid::Problem>& to, const std::vector<grid::Problem>& more);

/// A table with at least one row. Errors: BadInput.
grid::CsvTable read_table(const std::filesystem::path&);

/// A problem for each missing column, with the nearest one that is there; true when there is none.
bool usable(const grid::CsvTable&, const std::vector<std::string>& columns, std::vector<grid::Problem>&);

/// The rows of a table as presets: `read_one(Row&)` makes one; its own problems() and repeated ids are added to
/// `problems`. A row with a problem is left out.
template <class Preset, class ReadOne>
std::vector<Preset> read_rows(const grid::CsvTable& table,
                              const std::vector<std::string>& columns,
                              std::vector<grid::Problem>& problems,
                              ReadOne&& read_one) {
    std::vector<Preset> presets;
    if (!usable(table, columns, problems))
        return presets;
    for (std::size_t r = 0; r < table.rows(); ++r) {
        Row row(table, r, problems);
        Preset preset = read_one(row);
        if (!row.fine())
            continue;
        std::vector<grid::Problem> wrong = preset.problems(row.where());
        for (const Preset& earlier : presets)
            if (earlier.id == preset.id)
                wrong.push_back({row.where(), "id \"" + preset.id + "\" is there twice", ""});
        append(problems, wrong);
        if (wrong.empty())
            presets.push_back(std::move(preset));
    }
    return presets;
}

} // namespace tidemark::materials
