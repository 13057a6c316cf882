/// Small pictures for the tests of the reference room.
#pragma once
#include "grid/picture.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>

namespace tidemark::tests {

inline grid::Picture flat_picture(int width, int height, std::uint8_t r, std::uint8_t g, std::uint8_t b) {
    grid::Picture p{width, height, std::vector<std::uint8_t>(std::size_t{3} * width * height)};
    for (std::size_t i = 0; i < p.rgb.size(); i += 3)
        p.rgb[i] = r, p.rgb[i + 1] = g, p.rgb[i + 2] = b;
    return p;
}

/// Something like a photograph: a graded sky, a dark hill with a light house on it, seeded noise.
inline grid::Picture landscape(int width, int height, int noise = 6) {
    grid::Picture p{width, height, {}};
    std::mt19937 random(3);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const double u = static_cast<double>(x) / width, v = static_cast<double>(y) / height;
            double r = 150 + 100 * v, g = 180 + 70 * v, b = 225 + 25 * v;
            if (v > 0.55 + 0.12 * std::sin(4 * u))
                r = 105 - 20 * v, g = 120 - 20 * v, b = 85 - 20 * v;
            if (u > 0.3 && u < 0.45 && v > 0.55 && v < 0.75)
                r = 250, g = 246, b = 238;
            const int n = noise > 0 ? static_cast<int>(random() % (2 * noise + 1)) - noise : 0;
            for (const double c : {r, g, b})
                p.rgb.push_back(static_cast<std::uint8_t>(std::clamp(c + n, 0.0, 255.0)));
        }
    return p;
}

inline grid::Picture mirrored(const grid::Picture& p) {
    grid::Picture m = p;
    for (int y = 0; y < p.height; ++y)
        for (int x = 0; x < p.width; ++x)
            std::copy_n(p.at(p.width - 1 - x, y), 3, m.at(x, y));
    return m;
}

} // namespace tidemark::tests
