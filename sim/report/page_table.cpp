#include "report/page_table.h"

#include "report/type_size.h"

#include <algorithm>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

std::string both(const std::string& a, const std::string& b) { return a.empty() || b.empty() ? a + b : fmt::format("{} {}", a, b); }

std::string column_class(std::size_t column) { return fmt::format("c{}", column + 1); }

/// One after the other on the same line where the first stands out, else each on its own.
double cell_lines(const std::vector<std::string>& lines, double width_mm, double type_pt, bool joined) {
    double sum = 0;
    std::size_t all = 0;
    for (const std::string& line : lines) {
        sum += lines_of(characters(line), width_mm, type_pt);
        all += characters(line) + 1;
    }
    return joined ? lines_of(all, width_mm, type_pt) : sum;
}

void write_lines(Html& h, const std::vector<std::string>& lines, bool bold_first) {
    for (std::size_t k = 0; k < lines.size(); ++k) {
        if (k > 0 && bold_first)
            h.text(" ");
        else if (k > 0)
            h.single("br", {});
        if (k == 0 && bold_first)
            h.element("b", {}, lines[k]);
        else
            h.text(lines[k]);
    }
}

} // namespace

void PageTable::write(Html& h) const {
    const auto css_of = [&](std::size_t c, const std::string& more) {
        return both(column_class(c), both(columns[c].css, more));
    };
    h.inside("table", {{"class", css}, {"role", "table"}}, [&] {
        h.element("caption", {}, caption);
        h.inside("thead", {{"role", "rowgroup"}}, [&] {
            h.inside("tr", {{"role", "row"}}, [&] {
                for (std::size_t c = 0; c < columns.size(); ++c)
                    h.inside("th", {{"scope", "col"}, {"role", "columnheader"}, {"class", css_of(c, "")}}, [&] {
                        h.text(columns[c].head);
                        if (c == drawn)
                            draw_head(h, 0);
                    });
            });
        });
        h.inside("tbody", {{"role", "rowgroup"}}, [&] {
            for (std::size_t r = 0; r < rows.size(); ++r)
                h.inside("tr", {{"role", "row"}, {"class", rows[r].css}}, [&] { write_row(h, r); });
        });
    });
}

void PageTable::write_row(Html& h, std::size_t r) const {
    for (std::size_t c = 0; c < columns.size(); ++c) {
        const std::string css_here = both(column_class(c), columns[c].css);
        const auto inside = [&] {
            if (c == drawn)
                draw(h, r);
            else
                write_lines(h, rows[r].cells[c], c == names && bold_names);
        };
        if (c == names)
            h.inside("th", {{"scope", "row"}, {"role", "rowheader"}, {"class", both(css_here, "name")}}, inside);
        else if (c == drawn)
            h.inside("td", {{"role", "cell"}, {"class", css_here}}, inside);
        else
            h.inside("td", {{"role", "cell"}, {"class", css_here}, {"data-label", columns[c].head}}, inside);
    }
}

double PageTable::height_mm(double width_mm, double type_pt) const {
    double height = lines_of(characters(caption), width_mm, type_pt) * line_mm(type_pt) + 1.5 * line_mm(type_pt);
    for (const Row& row : rows) {
        double lines = 1;
        for (std::size_t c = 0; c < columns.size(); ++c)
            lines = std::max(lines, cell_lines(row.cells[c], columns[c].share * width_mm, type_pt, c == names && bold_names));
        height += row_mm(lines, type_pt);
    }
    return height;
}

} // namespace tidemark::report
