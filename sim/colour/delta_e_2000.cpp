#include <algorithm>
#include <cmath>
#include <numbers>

#include "colour/lab.h"

// Letters and equation numbers as in Sharma, Wu & Dalal 2005, Color Res. Appl. 30, 21-30; kL = kC = kH = 1.
namespace tidemark::colour {

namespace {

constexpr double degree = std::numbers::pi / 180;

double pow7(double x) {
    const double x2 = x * x;
    return x2 * x2 * x2 * x;
}
double chroma_share(double C) { return std::sqrt(pow7(C) / (pow7(C) + pow7(25))); }

/// Hue angle in degrees, 0 ... 360; 0 for a neutral (eq. 7).
double hue(double b, double a) {
    if (a == 0 && b == 0) return 0;
    const double h = std::atan2(b, a) / degree;
    return h < 0 ? h + 360 : h;
}

/// Mean of two hues along the shorter way round (eq. 14).
double mean_hue(double h1, double h2, bool neutral) {
    if (neutral) return h1 + h2;
    if (std::abs(h1 - h2) <= 180) return (h1 + h2) / 2;
    return h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
}

/// From the first hue to the second along the shorter way (eq. 10).
double hue_step(double h1, double h2, bool neutral) {
    if (neutral) return 0;
    const double d = h2 - h1;
    return d > 180 ? d - 360 : d < -180 ? d + 360 : d;
}

} // namespace

double delta_e_2000(const Lab& one, const Lab& two) {
    const double G = 0.5 * (1 - chroma_share((std::hypot(one.a, one.b) + std::hypot(two.a, two.b)) / 2)); // eq. 4
    const double a1 = (1 + G) * one.a, a2 = (1 + G) * two.a;
    const double C1 = std::hypot(a1, one.b), C2 = std::hypot(a2, two.b);
    const double h1 = hue(one.b, a1), h2 = hue(two.b, a2);
    const bool neutral = C1 * C2 == 0;

    const double dL = two.L - one.L, dC = C2 - C1;
    const double dH = 2 * std::sqrt(C1 * C2) * std::sin(hue_step(h1, h2, neutral) / 2 * degree);

    const double L = (one.L + two.L) / 2, C = (C1 + C2) / 2, h = mean_hue(h1, h2, neutral);
    const auto cosine = [](double angle) { return std::cos(angle * degree); };
    const double T =
        1 - 0.17 * cosine(h - 30) + 0.24 * cosine(2 * h) + 0.32 * cosine(3 * h + 6) - 0.20 * cosine(4 * h - 63);
    const double S_L = 1 + 0.015 * (L - 50) * (L - 50) / std::sqrt(20 + (L - 50) * (L - 50));
    const double S_C = 1 + 0.045 * C, S_H = 1 + 0.015 * C * T;
    const double turn = 30 * std::exp(-((h - 275) / 25) * ((h - 275) / 25));
    const double R_T = -std::sin(2 * turn * degree) * 2 * chroma_share(C); // eq. 21: blues

    const double l = dL / S_L, c = dC / S_C, t = dH / S_H;
    return std::sqrt(std::max(0.0, l * l + c * c + t * t + R_T * c * t));
}

} // namespace tidemark::colour
