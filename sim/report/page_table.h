/// A table of report.html, first as texts, since its size is reckoned before it is written.
///
/// Real tables: a caption, heads with their scope, in every row one cell that names it. Roles are written out, since on a
/// narrow screen rows are laid out as blocks, which takes them away from screen readers; there each cell shows its head.
#pragma once
#include "report/html.h"

#include <functional>
#include <string>
#include <vector>

namespace tidemark::report {

struct PageTable {
    struct Column {
        std::string head;
        double share = 0; ///< of the width, 0 ... 1; as page_style.cpp has it
        std::string css = {};
    };
    struct Row {
        std::vector<std::vector<std::string>> cells; ///< each one or several lines
        std::string css = {};
    };
    std::string css, caption;
    std::vector<Column> columns;
    std::size_t names = 0;   ///< the column whose cell names the row
    bool bold_names = false; ///< its first line
    std::vector<Row> rows;
    /// Writes what can't be text: asked for each cell of that column.
    std::function<void(Html&, std::size_t row)> draw = {}, draw_head = {};
    std::size_t drawn = 99; ///< the column that is drawn; none

    void write(Html&) const;
    /// Printed, in letters that large, its head and caption included.
    double height_mm(double width_mm, double type_pt) const;

  private:
    void write_row(Html&, std::size_t row) const;
};

} // namespace tidemark::report
