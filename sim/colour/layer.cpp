#include "colour/layer.h"

#include <algorithm>
#include <cmath>

// With β = b S X = sqrt(KX (KX + 2 SX)) and q = 2β / (exp(2β) - 1) the layer formula becomes
//
//   R = (SX (1 - Rg SX/p) + Rg q) / (p - Rg SX + q),   p = KX + SX + β
//
// (coth β = 1 + q/β, and KX + SX - β = SX²/p). Every term is positive and nothing cancels: no S → 0, K → 0 or thick
// case to set apart. q runs from 1 (no layer) to 0 (thick), SX/p is the colour of the thick layer.
namespace tidemark::colour {

namespace {

double q_of(double x) { return x > 0 ? x / std::expm1(x) : 1; }

float q_of(float x) {
    // Below 0.5 the difference exp(x) - 1 has lost digits; the Bernoulli series is exact to 3e-9 there.
    const float x2 = x * x;
    if (x < 0.5f) return 1 - 0.5f * x + x2 * (1.0f / 12) * (1 - x2 * (1.0f / 60) * (1 - x2 * (1.0f / 42)));
    const float e = std::exp(-x);
    return x * e / (1 - e);
}

template <class T> T layer(T KX, T SX, T ground) {
    const T beta = std::sqrt(KX * (KX + 2 * SX));
    const T p = KX + SX + beta, q = q_of(2 * beta);
    const T thick = p > 0 ? SX / p : T(0);
    return (SX * (1 - ground * thick) + ground * q) / (p - ground * SX + q);
}

template <class T> T seen(T k1, T k2, T body) { return k1 + (1 - k1) * (1 - k2) * body / (1 - k2 * body); }

} // namespace

double km_over(double KX, double SX, double ground) { return layer(KX, SX, ground); }

BodyReflectance km_over(const Bands& KX, const Bands& SX, const BodyReflectance& ground) {
    BodyReflectance body;
    for (std::size_t k = 0; k < bands; ++k) body.at[k] = layer(KX[k], SX[k], ground.at[k]);
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
