#include "rehearsal/count_stages.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "grid/rows.h"
#include "sheet/stage.h"

namespace tidemark::rehearsal {
namespace {

/// Four counters share a word, a byte each: no more cells in one go than a byte can count.
constexpr int most_cells = 248;

TIDEMARK_CLONES void one_of_stage(int n, double wet_m, double moist_m, double dry_front, const float* __restrict film,
                                  const double* __restrict front, const std::uint8_t* __restrict surface,
                                  std::uint32_t* __restrict one) {
    using sheet::CellStage;
    constexpr auto bit = [](CellStage s) { return std::uint32_t{1} << (8 * static_cast<int>(s)); };
    const sheet::StageRule rule{wet_m, moist_m, dry_front};
    constexpr auto reserved = static_cast<std::uint8_t>(sheet::Surface::reserved);
    for (int i = 0; i < n; ++i)
        one[i] = bit(sheet::stage_of(rule, film[i], front[i])) * std::uint32_t{surface[i] != reserved};
}

TIDEMARK_CLONES std::uint32_t add_inside(int n, const std::uint8_t* __restrict inside,
                                         const std::uint32_t* __restrict one) {
    std::uint32_t sum = 0;
    for (int i = 0; i < n; ++i) sum += inside[i] ? one[i] : 0u;
    return sum;
}

std::uint32_t add_all(int n, const std::uint32_t* one) {
    std::uint32_t sum = 0;
    for (int i = 0; i < n; ++i) sum += one[i];
    return sum;
}

void unpack(std::uint32_t sum, StageCount& count) {
    for (int k = 0; k < 4; ++k) count.cells[k] += (sum >> (8 * k)) & 255u;
}

} // namespace

AreaCells::AreaCells(grid::Field<std::uint8_t> cells) : inside(std::move(cells)), reach(inside.ny()) {
    for (int j = 0; j < inside.ny(); ++j) {
        const std::uint8_t *row = inside.row(j), *end = row + inside.nx();
        const auto is_in = [](std::uint8_t in) { return in != 0; };
        const auto first = std::find_if(row, end, is_in);
        const auto last = std::find_if(std::reverse_iterator(end), std::reverse_iterator(first), is_in).base();
        reach[j] = {static_cast<int>(first - row), static_cast<int>(last - row)};
    }
}

std::vector<StageCount> count_stages(const sheet::SheetState& s, const std::vector<AreaCells>& areas) {
    const sheet::StageRule rule = sheet::stage_rule(s);
    const int nx = s.geometry.nx, ny = s.geometry.ny;
    const std::size_t n_areas = areas.size(), width = n_areas + 1;
    // Counts are whole numbers: their sum does not depend on the order.
    std::vector<StageCount> by_row(static_cast<std::size_t>(ny) * width), counts(width);
    grid::for_rows(ny, static_cast<long>(nx) * ny, [&](int j) {
        alignas(64) std::uint32_t one[most_cells];
        StageCount* row = by_row.data() + static_cast<std::size_t>(j) * width;
        for (int begin = 0; begin < nx; begin += most_cells) {
            const int n = std::min(most_cells, nx - begin);
            one_of_stage(n, rule.wet_film_m, rule.moist_film_m, rule.dry_front_kg_m2, s.film_m.row(j) + begin,
                         s.front_kg_m2.row(j) + begin, s.surface.row(j) + begin, one);
            for (std::size_t a = 0; a < n_areas; ++a) {
                const grid::Span reach = areas[a].reach[j];
                const int from = std::max(begin, reach.begin), to = std::min(begin + n, reach.end);
                if (from < to) unpack(add_inside(to - from, areas[a].inside.row(j) + from, one + (from - begin)), row[a]);
            }
            unpack(add_all(n, one), row[n_areas]);
        }
    });
    for (std::size_t k = 0; k < by_row.size(); ++k)
        for (int stage = 0; stage < 4; ++stage) counts[k % width].cells[stage] += by_row[k].cells[stage];
    return counts;
}

} // namespace tidemark::rehearsal
