#include "hand/paths.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tidemark::hand {
namespace {

template <class Key> std::vector<Cell> sorted_by(const grid::Field<float>& coverage, Key key) {
    using K = decltype(key(0, 0));
    std::vector<std::pair<K, Cell>> cells;
    for (int j = 0; j < coverage.ny(); ++j)
        for (int i = 0; i < coverage.nx(); ++i)
            if (coverage(i, j) >= painted) cells.push_back({key(i, j), {i, j}});
    std::stable_sort(cells.begin(), cells.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Cell> out;
    out.reserve(cells.size());
    for (const auto& c : cells) out.push_back(c.second);
    return out;
}

} // namespace

std::vector<Cell> cells_in_rows(const grid::Field<float>& coverage, double cell_m) {
    const int band = std::max(1, static_cast<int>(std::lround(band_m / cell_m)));
    return sorted_by(coverage, [=](int i, int j) {
        const int k = j / band;
        return std::tuple(k, k % 2 ? -i : i);
    });
}

std::vector<Cell> cells_in_order(const grid::Field<float>& coverage, double cell_m, const grid::GreyPicture& order) {
    if (order.width < 1 || order.height < 1) return cells_in_rows(coverage, cell_m);
    const int band = std::max(1, static_cast<int>(std::lround(band_m / cell_m)));
    const auto pixel = [](int cell, int cells, int pixels) {
        return static_cast<int>((2ll * cell + 1) * pixels / (2ll * cells)); // under the cell's centre
    };
    return sorted_by(coverage, [&](int i, int j) {
        const int k = j / band;
        return std::tuple(order.at(pixel(i, coverage.nx(), order.width), pixel(j, coverage.ny(), order.height)), k,
                          k % 2 ? -i : i);
    });
}

std::vector<Cell> cells_downhill(const grid::Field<float>& coverage, double direction_rad) {
    const double x = std::cos(direction_rad), y = std::sin(direction_rad);
    // Rounded to a tenth of a cell: lines across the slope, not an order made by the last bit.
    return sorted_by(coverage, [=](int i, int j) { return std::lround(10 * (i * x + j * y)); });
}

std::vector<Cell> cells_from(const grid::Field<float>& coverage, double cell_m, double x_m, double y_m) {
    grid::Geodesic inside(coverage.nx(), coverage.ny(), [&](int i, int j) { return coverage(i, j) >= painted; });
    std::vector<Cell> order;
    Cell from{static_cast<int>(x_m / cell_m), static_cast<int>(y_m / cell_m)};
    const auto left = sorted_by(coverage, [](int, int) { return 0; });
    for (;;) {
        const Cell* nearest = nullptr;
        long best = 0;
        for (const Cell& c : left) {
            if (inside.reached(c)) continue;
            const long d = static_cast<long>(c.i - from.i) * (c.i - from.i) + static_cast<long>(c.j - from.j) * (c.j - from.j);
            if (!nearest || d < best) nearest = &c, best = d;
        }
        if (!nearest) return order;
        const std::vector<Cell> part = inside.spread({nearest, 1});
        order.insert(order.end(), part.begin(), part.end());
        from = order.back();
    }
}

} // namespace tidemark::hand
