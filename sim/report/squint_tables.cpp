#include "report/squint_pictures.h"

#include "grid/csv.h"

#include <fmt/format.h>

namespace tidemark::report {

std::string masses_table(const reference::Masses& m, const std::vector<std::string>& names, int groups, double pixels_per_mm) {
    grid::CsvWriter csv({"mass", "name", "group", "area_mm2", "share_pct", "mean_L", "centre_x_mm", "centre_y_mm", "neighbours"});
    const double pixels = static_cast<double>(m.of.size());
    for (std::size_t k = 0; k < m.list.size(); ++k) {
        const reference::Mass& mass = m.list[k];
        std::string neighbours;
        for (const reference::Border& b : mass.neighbours)
            neighbours += fmt::format("{}{}", neighbours.empty() ? "" : " ", m.list[b.mass].number);
        csv.number(mass.number).cell(names[k]).cell(reference::group_word(mass.group, groups));
        csv.number(static_cast<double>(mass.pixels) / (pixels_per_mm * pixels_per_mm), 5).number(100 * static_cast<double>(mass.pixels) / pixels, 4);
        csv.number(mass.mean_lstar, 4).number(mass.centre_x / pixels_per_mm, 4).number(mass.centre_y / pixels_per_mm, 4).cell(neighbours);
        csv.end_row();
    }
    return csv.text();
}

std::string borders_table(const reference::Masses& m, double pixels_per_mm) {
    grid::CsvWriter csv({"mass", "neighbour", "length_mm", "contrast_L"});
    for (std::size_t k = 0; k < m.list.size(); ++k)
        for (const reference::Border& b : m.list[k].neighbours)
            if (b.mass > static_cast<int>(k)) {
                csv.number(m.list[k].number).number(m.list[b.mass].number);
                csv.number(static_cast<double>(b.length) / pixels_per_mm, 5).number(b.contrast_lstar, 3);
                csv.end_row();
            }
    return csv.text();
}

std::string lights_table(const std::vector<reference::Light>& lights) {
    grid::CsvWriter csv({"how", "x_mm", "y_mm", "area_mm2", "width_mm", "contrast_L", "edge_mm", "reason"});
    for (const reference::Light& l : lights) {
        csv.cell(word(l.keep)).number(l.at.x_mm, 4).number(l.at.y_mm, 4).number(l.area_mm2, 4).number(l.width_mm, 3);
        csv.number(l.contrast_lstar, 3).number(l.edge_mm, 3).cell(l.reason);
        csv.end_row();
    }
    return csv.text();
}

std::string branches_table(const reference::Order& order) {
    grid::CsvWriter csv({"branch", "from", "area_mm2", "first_x_mm", "first_y_mm", "last_x_mm", "last_y_mm", "begin", "end",
                         "edge_waited", "too_long"});
    for (std::size_t k = 0; k < order.branches.size(); ++k) {
        const reference::Branch& b = order.branches[k];
        std::string from;
        for (const int f : b.from)
            from += fmt::format("{}{}", from.empty() ? "" : " ", f + 1);
        csv.number(static_cast<double>(k) + 1).cell(from).number(b.area_mm2, 5).number(b.first.x_mm, 4).number(b.first.y_mm, 4);
        csv.number(b.last.x_mm, 4).number(b.last.y_mm, 4).cell(grid::clock_text(b.begin_s)).cell(grid::clock_text(b.end_s));
        csv.cell(grid::clock_text(b.waited_s)).cell(b.too_long ? "yes" : "no");
        csv.end_row();
    }
    return csv.text();
}

} // namespace tidemark::report
