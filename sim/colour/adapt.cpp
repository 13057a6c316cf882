#include <array>

#include "colour/lab.h"
#include "colour/matrix_detail.h"
#include "colour/observer_detail.h"

namespace tidemark::colour {

namespace {

/// XYZ to the sharpened cone responses of Lam 1985 (Bradford), as ICC.1:2010 prints them in annex E.
constexpr Matrix to_cones{{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}};
constexpr Matrix from_cones = inverse(to_cones);

constexpr std::array<double, 3> times(const Matrix& m, const std::array<double, 3>& v) {
    std::array<double, 3> out{};
    for (int r = 0; r < 3; ++r) out[r] = m[r][0] * v[0] + m[r][1] * v[1] + m[r][2] * v[2];
    return out;
}
constexpr std::array<double, 3> cones(const Xyz& c) { return times(to_cones, {c.X, c.Y, c.Z}); }

} // namespace

// Each response in the share that it has of the white's (von Kries).
Xyz adapted_to_d65(const Xyz& seen, Light light) {
    if (light == Light::D65) return seen; // to the last bit
    const std::array<double, 3> from = cones(white_of(light)), to = cones(white_of(Light::D65));
    std::array<double, 3> response = cones(seen);
    for (int k = 0; k < 3; ++k) response[k] *= to[k] / from[k];
    const std::array<double, 3> out = times(from_cones, response);
    return {out[0], out[1], out[2]};
}

} // namespace tidemark::colour
