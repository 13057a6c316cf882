#include "crown.h"

#include "scene.h"

#include <span>

namespace orchard {
namespace {

struct Clump {
    double x = 0, y = 0, r = 1;
};
constexpr Clump near_clumps[] = {{6, 34, 38},  {44, 24, 30},  {76, 40, 24}, {28, 66, 25}, {60, 72, 17}, {-4, 84, 22},
                                 {92, 24, 17}, {88, 63, 12},  {18, 94, 11}, {104, 44, 9}, {48, 92, 8},  {70, 8, 22},
                                 {106, 8, 12}, {-6, 110, 14}, {34, 46, 26}, {118, 24, 7}, {76, 84, 7}};
constexpr Clump middle_clumps[] = {{240, 70, 17}, {221, 88, 13}, {260, 84, 15}, {240, 96, 13},
                                   {226, 68, 10}, {271, 99, 9},  {211, 99, 8},  {253, 60, 9},
                                   {248, 109, 7}, {229, 109, 7}, {276, 86, 6},  {237, 56, 7}};
constexpr Clump right_clumps[] = {{366, 66, 22},  {352, 88, 16},  {382, 96, 24}, {340, 72, 11},
                                  {372, 124, 18}, {376, 34, 16},  {352, 6, 15},  {372, 12, 20},
                                  {330, 2, 11},   {384, 146, 14}, {312, -2, 8},  {349, 106, 12}};

constexpr double cell_mm = 10, margin_mm = 60;
constexpr int columns = 50, rows = 40;

/// Sprays thrown into the disc of each mass, those towards its middle in front.
Crown grown(std::span<const Clump> clumps, unsigned salt) {
    struct Thrown {
        Spray spray;
        double order = 0;
    };
    std::vector<Thrown> thrown;
    for (int c = 0; const Clump& clump : clumps) {
        ++c;
        for (int k = 0; k < 26; ++k) {
            const Point at{2.2 * chance(c, k, salt) - 1.1, 2.2 * chance(c, k, salt + 1) - 1.1};
            if (dot(at, at) > 1.05)
                continue;
            const double size = clump.r * (0.20 + 0.24 * chance(c, k, salt + 2)) + 0.8;
            thrown.push_back({{clump.x + at.x * clump.r, clump.y + at.y * clump.r, 1.15 * size, 0.85 * size,
                               -0.72 * at.x - 0.60 * at.y, chance(c, k, salt + 3)},
                              dot(at, at) + 0.9 * chance(c, k, salt + 4)});
        }
    }
    std::sort(thrown.begin(), thrown.end(), [](const Thrown& a, const Thrown& b) { return a.order < b.order; });
    Crown crown;
    crown.cells.resize(std::size_t{columns} * rows);
    for (const Thrown& t : thrown) {
        const Spray& s = t.spray;
        const double reach = 1.45; // ragged edges go beyond the half axes
        const int index = static_cast<int>(crown.sprays.size());
        crown.sprays.push_back(s);
        for (int j = 0; j < rows; ++j)
            for (int i = 0; i < columns; ++i) {
                const double left = i * cell_mm - margin_mm, top = j * cell_mm - margin_mm;
                if (s.x + reach * s.wide > left && s.x - reach * s.wide < left + cell_mm &&
                    s.y + reach * s.high > top && s.y - reach * s.high < top + cell_mm)
                    crown.cells[static_cast<std::size_t>(j) * columns + i].push_back(index);
            }
    }
    return crown;
}

} // namespace

const std::vector<int>* Crown::near(Point p) const {
    const int i = static_cast<int>(std::floor((p.x + margin_mm) / cell_mm));
    const int j = static_cast<int>(std::floor((p.y + margin_mm) / cell_mm));
    if (i < 0 || j < 0 || i >= columns || j >= rows)
        return nullptr;
    return &cells[static_cast<std::size_t>(j) * columns + i];
}

const Crown& near_crown() {
    static const Crown crown = grown(near_clumps, 401);
    return crown;
}
const Crown& middle_crown() {
    static const Crown crown = grown(middle_clumps, 411);
    return crown;
}
const Crown& right_crown() {
    static const Crown crown = grown(right_clumps, 421);
    return crown;
}

} // namespace orchard
