#include "report/enlarge.h"

#include "colour/lab.h"
#include "grid/rows.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace tidemark::report {

namespace {

/// The codes' linear light, and the code nearest to a linear value by a table fine enough for all 256 (the darkest
/// two lie 3e-4 apart).
struct Light {
    std::array<float, 256> of_code{};
    std::vector<std::uint8_t> code_of = std::vector<std::uint8_t>(steps + 1);
    static constexpr int steps = 1 << 15;
    Light() {
        for (int c = 0; c < 256; ++c)
            of_code[c] = static_cast<float>(colour::linear_from_srgb(c / 255.0));
        for (int k = 0; k <= steps; ++k)
            code_of[k] = static_cast<std::uint8_t>(std::lround(255 * colour::srgb_from_linear(double(k) / steps)));
    }
    std::uint8_t code(float linear) const {
        return code_of[static_cast<int>(std::clamp(linear, 0.0f, 1.0f) * steps + 0.5f)];
    }
};

/// Four cells and their weights for each of the new pixels of one line.
struct Tap {
    int cell[4];
    float weight[4];
};

std::vector<Tap> taps(int cells, int factor) {
    const auto keys = [](double x) {
        x = std::abs(x);
        return x < 1 ? (1.5 * x - 2.5) * x * x + 1 : x < 2 ? ((-0.5 * x + 2.5) * x - 4) * x + 2 : 0.0;
    };
    std::vector<Tap> out(static_cast<std::size_t>(cells) * factor);
    for (std::size_t p = 0; p < out.size(); ++p) {
        const double at = (static_cast<double>(p) + 0.5) / factor - 0.5;
        const int left = static_cast<int>(std::floor(at));
        for (int k = 0; k < 4; ++k) {
            out[p].cell[k] = std::clamp(left - 1 + k, 0, cells - 1);
            out[p].weight[k] = static_cast<float>(keys(at - (left - 1 + k)));
        }
    }
    return out;
}

float between(const Tap& t, float a, float b, float c, float d) {
    const float v = t.weight[0] * a + t.weight[1] * b + t.weight[2] * c + t.weight[3] * d;
    return std::clamp(v, std::min(b, c), std::max(b, c));
}

} // namespace

grid::Picture enlarged(const grid::Picture& in, int factor) {
    if (factor <= 1)
        return in;
    static const Light light;
    grid::Picture out{in.width * factor, in.height * factor, {}};
    out.rgb.resize(3 * static_cast<std::size_t>(out.width) * out.height);
    const std::vector<Tap> across = taps(in.width, factor), down = taps(in.height, factor);
    std::vector<float> wide(3 * static_cast<std::size_t>(out.width) * in.height);
    const std::size_t row = 3 * static_cast<std::size_t>(out.width);
    const long work = static_cast<long>(out.width) * out.height;
    grid::for_rows(in.height, work, [&](int y) {
        for (int x = 0; x < out.width; ++x)
            for (int c = 0; c < 3; ++c) {
                const Tap& t = across[x];
                const auto cell = [&](int k) { return light.of_code[in.at(t.cell[k], y)[c]]; };
                wide[y * row + 3 * x + c] = between(t, cell(0), cell(1), cell(2), cell(3));
            }
    });
    grid::for_rows(out.height, work, [&](int y) {
        const Tap& t = down[y];
        const float* line[4];
        for (int k = 0; k < 4; ++k)
            line[k] = wide.data() + t.cell[k] * row;
        for (std::size_t k = 0; k < row; ++k)
            out.rgb[y * row + k] = light.code(between(t, line[0][k], line[1][k], line[2][k], line[3][k]));
    });
    return out;
}

int enlargement(int nx, int ny, double cell_m, double pixels_per_mm, double most_pixels) {
    const double wanted = pixels_per_mm * cell_m * 1e3;
    const double allowed = std::sqrt(most_pixels / (static_cast<double>(nx) * ny));
    return std::clamp(static_cast<int>(std::min(std::round(wanted), std::floor(allowed))), 1, 16);
}

} // namespace tidemark::report
