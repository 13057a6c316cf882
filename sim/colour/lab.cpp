#include "colour/lab.h"

#include <cmath>

#include "colour/observer_detail.h"

namespace tidemark::colour {

namespace {

/// CIE 1976: cube root, and a straight line below (6/29)³ that meets it with the same slope.
constexpr double bend = 6.0 / 29.0;
double f(double t) { return t > bend * bend * bend ? std::cbrt(t) : t / (3 * bend * bend) + 4.0 / 29.0; }
double f_inverse(double t) { return t > bend ? t * t * t : 3 * bend * bend * (t - 4.0 / 29.0); }

} // namespace

Xyz xyz_from(const Reflectance& seen, Light light) {
    const Observer& observer = observer_in(light);
    Xyz sum;
    for (std::size_t k = 0; k < bands; ++k) {
        const double r = seen.at[k];
        sum.X += r * observer.x[k];
        sum.Y += r * observer.y[k];
        sum.Z += r * observer.z[k];
    }
    return sum;
}

Lab lab_from(const Xyz& c, Light light) {
    const Xyz& white = white_of(light);
    const double fx = f(c.X / white.X), fy = f(c.Y / white.Y), fz = f(c.Z / white.Z);
    return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

Xyz xyz_from(const Lab& c, Light light) {
    const Xyz& white = white_of(light);
    const double fy = (c.L + 16) / 116;
    return {white.X * f_inverse(fy + c.a / 500), white.Y * f_inverse(fy), white.Z * f_inverse(fy - c.b / 200)};
}

double lstar_from_Y(double Y_percent) { return 116 * f(Y_percent / 100) - 16; }

double Y_from_lstar(double lstar) { return 100 * f_inverse((lstar + 16) / 116); }

} // namespace tidemark::colour
