#include <array>
#include <cmath>

#include "colour/lab.h"
#include "colour/matrix_detail.h"
#include "colour/observer_detail.h"

namespace tidemark::colour {

namespace {

/// Linear RGB to XYZ (white Y = 1): the chromaticities of IEC 61966-2-1, scaled so that r = g = b is the white of the
/// 16 bands. The standard's own matrix, rounded to four decimals, tints a neutral by 0.01 in a* and b*.
constexpr Matrix rgb_to_xyz() {
    constexpr double x[3] = {0.64, 0.30, 0.15}, y[3] = {0.33, 0.60, 0.06};
    Matrix m{};
    for (int c = 0; c < 3; ++c) {
        m[0][c] = x[c] / y[c];
        m[1][c] = 1;
        m[2][c] = (1 - x[c] - y[c]) / y[c];
    }
    const Matrix inv = inverse(m);
    for (int c = 0; c < 3; ++c) {
        const double scale = (inv[c][0] * white_in_d65.X + inv[c][1] * white_in_d65.Y + inv[c][2] * white_in_d65.Z) / 100;
        for (int r = 0; r < 3; ++r) m[r][c] *= scale;
    }
    return m;
}

constexpr Matrix to_xyz = rgb_to_xyz();
constexpr Matrix to_rgb = inverse(to_xyz);

/// Linear value of each code, and the value above which a colour rounds to the next code.
struct Codes {
    std::array<double, 256> linear{}, next{};
    Codes() {
        for (int k = 0; k < 256; ++k) {
            linear[k] = linear_from_srgb(k / 255.0);
            next[k] = linear_from_srgb((k + 0.5) / 255.0);
        }
    }
};
const Codes& codes() {
    static const Codes table;
    return table;
}

/// Halving the table eight times: exact rounding of the encoded value, and no power function for each pixel.
std::uint8_t code_of(const Codes& table, double linear) {
    int low = 0; // all codes below it are too small
    for (int step = 128; step > 0; step /= 2)
        if (linear >= table.next[low + step - 1]) low += step;
    return static_cast<std::uint8_t>(low);
}

} // namespace

double linear_from_srgb(double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); }
double srgb_from_linear(double v) { return v <= 0.0031308 ? v * 12.92 : 1.055 * std::pow(v, 1 / 2.4) - 0.055; }

Xyz xyz_from_srgb(Srgb8 c) {
    const auto& linear = codes().linear;
    const auto sum = [&](int r) {
        return 100 * (to_xyz[r][0] * linear[c.r] + to_xyz[r][1] * linear[c.g] + to_xyz[r][2] * linear[c.b]);
    };
    return {sum(0), sum(1), sum(2)};
}

Lab lab_from_srgb(Srgb8 c) { return lab_from(xyz_from_srgb(c)); }

float lstar_from_srgb(Srgb8 c) {
    const auto& linear = codes().linear;
    const double Y = to_xyz[1][0] * linear[c.r] + to_xyz[1][1] * linear[c.g] + to_xyz[1][2] * linear[c.b];
    return static_cast<float>(lstar_from_Y(100 * Y));
}

Srgb8 srgb_from(const Xyz& seen, Light light) {
    const Xyz c = adapted_to_d65(seen, light);
    const Codes& table = codes();
    const auto code = [&](int r) {
        return code_of(table, (to_rgb[r][0] * c.X + to_rgb[r][1] * c.Y + to_rgb[r][2] * c.Z) / 100);
    };
    return {code(0), code(1), code(2)};
}

} // namespace tidemark::colour
