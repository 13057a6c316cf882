#include "colour/layer.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>

#include "grid/rows.h"

// With β = b S X = sqrt(KX (KX + 2 SX)), coth β = 1 + q/β and KX + SX - β = SX²/p the layer formula becomes
//
//   R = (d R∞ + q Rg) / (d + q)      R∞ = SX/p, p = KX + SX + β;  d = KX + β + SX (1 - Rg);  q = 2β / (exp(2β) - 1)
//
// a mean of the colour of the thick layer and the ground, with a weight q that runs from 1 (no layer) to 0 (thick).
// Nothing is subtracted: no S → 0, K → 0 or thick case to set apart, and R stays between 0 and 1.
namespace tidemark::colour {

namespace {

double q_of(double x) { return x > 0 ? x / std::expm1(x) : 1; }

/// x / (exp(x) - 1) without a branch, so that the 16 bands go through it side by side; 2e-7 relative.
/// exp(x) - 1 = 2^n (exp(r) - 1) + (2^n - 1) with x = n ln 2 + r: no digits are lost near 0.
inline float q_of(float x) {
    const float y = std::min(std::max(x, 1e-20f), 80.0f); // beyond 80 the layer is thick: 1e-33
    const float n = (y * 1.44269504f + 12582912.0f) - 12582912.0f; // 1.5 · 2²³: rounds to a whole number
    const float r = (y - n * 0.693145752f) - n * 1.42860677e-6f;   // ln 2 in two parts
    const float e = r * (1 + r * (1.0f / 2 + r * (1.0f / 6 + r * (1.0f / 24 + r * (1.0f / 120 + r / 720)))));
    const float power = std::bit_cast<float>((static_cast<std::int32_t>(n) + 127) << 23);
    return y / (power * e + (power - 1));
}

template <class T> inline T layer(T KX, T SX, T ground) {
    const T beta = std::sqrt(KX * (KX + 2 * SX));
    const T q = q_of(2 * beta), d = KX + beta + SX * (1 - ground);
    const T thick = SX / std::max(KX + SX + beta, std::numeric_limits<T>::min()); // no layer at all: 0
    return (d * thick + q * ground) / (d + q);
}

TIDEMARK_CLONES void lay(const float* __restrict KX, const float* __restrict SX, float* __restrict body) {
    for (int k = 0; k < bands; ++k) body[k] = layer(KX[k], SX[k], body[k]);
}

template <class T> T seen(T k1, T k2, T body) { return k1 + (1 - k1) * (1 - k2) * body / (1 - k2 * body); }

} // namespace

double km_over(double KX, double SX, double ground) { return layer(KX, SX, ground); }

BodyReflectance km_over(const Bands& KX, const Bands& SX, const BodyReflectance& ground) {
    BodyReflectance body = ground;
    lay(KX.data(), SX.data(), body.at.data());
    return body;
}

double seen_through(const Surface& s, double body) { return seen(s.k1, s.k2, body); }

double body_from_seen(const Surface& s, double seen_value) {
    const double inside = seen_value - s.k1; // less than the gloss alone: black
    return std::clamp(inside / ((1 - s.k1) * (1 - s.k2) + s.k2 * inside), 0.0, 1.0);
}

Reflectance seen_through(const Surface& s, const BodyReflectance& body) {
    const float k1 = static_cast<float>(s.k1), k2 = static_cast<float>(s.k2);
    Reflectance out;
    for (std::size_t k = 0; k < bands; ++k) out.at[k] = seen(k1, k2, body.at[k]);
    return out;
}

BodyReflectance body_from_seen(const Surface& s, const Reflectance& seen_bands) {
    BodyReflectance body;
    for (std::size_t k = 0; k < bands; ++k)
        body.at[k] = static_cast<float>(body_from_seen(s, static_cast<double>(seen_bands.at[k])));
    return body;
}

} // namespace tidemark::colour
