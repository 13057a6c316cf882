#include "hand/paths.h"

#include <algorithm>
#include <cmath>
#include <queue>
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

/// Steps of a hand on the grid, with lengths that are even in all directions to 2 %.
struct Hop { int di, dj; float length; };
constexpr Hop hops[16] = {{1, 0, 1.0f},        {-1, 0, 1.0f},       {0, 1, 1.0f},         {0, -1, 1.0f},
                          {1, 1, 1.4142136f},  {1, -1, 1.4142136f}, {-1, 1, 1.4142136f},  {-1, -1, 1.4142136f},
                          {2, 1, 2.2360680f},  {2, -1, 2.2360680f}, {-2, 1, 2.2360680f},  {-2, -1, 2.2360680f},
                          {1, 2, 2.2360680f},  {1, -2, 2.2360680f}, {-1, 2, 2.2360680f},  {-1, -2, 2.2360680f}};

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
    const int nx = coverage.nx(), ny = coverage.ny();
    grid::Field<float> reached(nx, ny, -1.0f);
    std::vector<Cell> order;
    const auto free = [&](int i, int j) { return i >= 0 && j >= 0 && i < nx && j < ny && coverage(i, j) >= painted; };
    const auto spread = [&](Cell start) {
        using Entry = std::tuple<float, int, int>;
        std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
        grid::Field<float> best(nx, ny, 1e30f);
        best(start.i, start.j) = 0;
        open.push({0.0f, start.j, start.i});
        while (!open.empty()) {
            const auto [distance, j, i] = open.top();
            open.pop();
            if (reached(i, j) >= 0) continue;
            reached(i, j) = distance;
            order.push_back({i, j});
            for (const Hop& h : hops) {
                const int ni = i + h.di, nj = j + h.dj;
                if (!free(ni, nj) || reached(ni, nj) >= 0) continue;
                // A knight's hop must not jump over bare paper.
                if (std::abs(h.di) + std::abs(h.dj) == 3 && !free(i + h.di / 2, j + h.dj / 2)) continue;
                const float next = distance + h.length;
                if (next < best(ni, nj)) best(ni, nj) = next, open.push({next, nj, ni});
            }
        }
    };
    Cell from{static_cast<int>(x_m / cell_m), static_cast<int>(y_m / cell_m)};
    const auto left = sorted_by(coverage, [](int, int) { return 0; });
    for (;;) {
        const Cell* nearest = nullptr;
        long best = 0;
        for (const Cell& c : left) {
            if (reached(c.i, c.j) >= 0) continue;
            const long d = static_cast<long>(c.i - from.i) * (c.i - from.i) + static_cast<long>(c.j - from.j) * (c.j - from.j);
            if (!nearest || d < best) nearest = &c, best = d;
        }
        if (!nearest) return order;
        spread(*nearest);
        from = order.back();
    }
}

} // namespace tidemark::hand
