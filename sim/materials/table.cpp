#include "materials/table_detail.h"

#include <limits>

namespace tidemark::materials {

void append(std::vector<grid::Problem>& to, const std::vector<grid::Problem>& more) {
    to.insert(to.end(), more.begin(), more.end());
}

std::string Row::text(const std::string& column) {
    try {
        return table_.text(row_, column);
    } catch (const grid::BadInput& bad) {
        append(problems_, bad.problems());
        fine_ = false;
        return {};
    }
}

double Row::number(const std::string& column) {
    try {
        return table_.number(row_, column);
    } catch (const grid::BadInput& bad) {
        append(problems_, bad.problems());
        fine_ = false;
        return std::numeric_limits<double>::quiet_NaN();
    }
}

void Row::refuse(const std::string& what, const std::string& allowed) {
    problems_.push_back({where(), what, allowed});
    fine_ = false;
}

grid::CsvTable read_table(const std::filesystem::path& file) {
    grid::CsvTable table = grid::CsvTable::read(file);
    if (table.rows() == 0)
        throw grid::BadInput(file.string(), "no row below the header", "at least one");
    return table;
}

bool usable(const grid::CsvTable& table,
            const std::vector<std::string>& columns,
            std::vector<grid::Problem>& problems) {
    bool complete = true;
    for (const std::string& column : columns) {
        if (table.has(column))
            continue;
        complete = false;
        try {
            table.text(0, column); // throws, and knows the table's name
        } catch (const grid::BadInput& bad) {
            for (grid::Problem problem : bad.problems()) {
                problem.what += grid::did_you_mean(column, table.columns());
                problems.push_back(problem);
            }
        }
    }
    return complete;
}

} // namespace tidemark::materials
