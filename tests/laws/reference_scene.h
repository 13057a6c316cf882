/// Small scenes drawn in letters, for the tests of shapes: '.' light (L* 90), 'm' midtone (50), 'd' dark (20).
#pragma once
#include "grid/geodesic.h"
#include "reference/connected.h"

#include <algorithm>
#include <limits>
#include <random>
#include <string>
#include <vector>

namespace tidemark::tests {

struct Scene {
    std::vector<std::string> rows;
    reference::ValueMap map;
    reference::Masses masses;

    explicit Scene(const std::vector<std::string>& drawn) : rows(drawn) {
        map.width = rows.empty() ? 0 : static_cast<int>(rows[0].size()), map.height = static_cast<int>(rows.size());
        reference::Groups g{3, {35, 70}, map.width, map.height, {}, {}, {}};
        for (const std::string& row : rows)
            for (const char c : row) {
                g.group.push_back(c == 'd' ? 0 : c == 'm' ? 1 : 2);
                map.lstar.push_back(c == 'd' ? 20.0f : c == 'm' ? 50.0f : 90.0f);
            }
        masses = reference::find_masses(g, map);
    }
    Scene mirrored() const {
        std::vector<std::string> m = rows;
        for (std::string& row : m) std::reverse(row.begin(), row.end());
        return Scene(m);
    }
    /// Every letter `k` times as large.
    Scene enlarged(int k) const {
        std::vector<std::string> large;
        for (const std::string& row : rows) {
            std::string wide;
            for (const char c : row) wide.append(static_cast<std::size_t>(k), c);
            large.insert(large.end(), static_cast<std::size_t>(k), wide);
        }
        return Scene(large);
    }
};

/// Rectangles of midtone and dark on a light ground, seeded.
inline Scene islands(int width, int height, int count, unsigned seed) {
    std::mt19937 random(seed);
    std::vector<std::string> rows(height, std::string(width, '.'));
    for (int k = 0; k < count; ++k) {
        const int w = 3 + static_cast<int>(random() % 8), h = 3 + static_cast<int>(random() % 7);
        const int x0 = static_cast<int>(random() % (width - w)), y0 = static_cast<int>(random() % (height - h));
        for (int y = y0; y < y0 + h; ++y)
            for (int x = x0; x < x0 + w; ++x) rows[y][x] = k % 2 ? 'm' : 'd';
    }
    return Scene(rows);
}

/// The least length of bridges that join all pieces, the slow way: a spread from each piece, then the shortest edges
/// between the tree and the rest (at 1 pixel a mm).
inline double least_bridges(const reference::Masses& m, const reference::Connected& c) {
    const int n = static_cast<int>(c.pieces.size());
    std::vector<std::vector<double>> between(n, std::vector<double>(n, std::numeric_limits<double>::infinity()));
    for (int k = 0; k < n; ++k) {
        grid::Geodesic free(m.width, m.height, [&](int x, int y) { return c.at(m, x, y) != k; });
        std::vector<grid::Cell> starts;
        for (int y = 0; y < m.height; ++y)
            for (int x = 0; x < m.width; ++x)
                if (c.at(m, x, y) == k) starts.push_back({x, y});
        for (const grid::Cell& cell : free.spread(starts))
            if (const int p = c.at(m, cell.i, cell.j); p >= 0 && p != k)
                between[k][p] = std::min<double>(between[k][p], free.distance(cell) - 1);
    }
    std::vector<bool> in(n);
    in[0] = true;
    double sum = 0;
    for (int joined = 1; joined < n; ++joined) {
        double best = std::numeric_limits<double>::infinity();
        int to = -1;
        for (int a = 0; a < n; ++a)
            for (int b = 0; b < n; ++b)
                if (in[a] && !in[b] && between[a][b] < best) best = between[a][b], to = b;
        in[to] = true, sum += best;
    }
    return sum;
}

} // namespace tidemark::tests
