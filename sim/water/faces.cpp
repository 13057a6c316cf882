#include "water/faces.h"

#include "grid/rows.h"

namespace tidemark::water {

TIDEMARK_CLONES void pressure_row(const PressureRow& r, int begin, int end) {
    const float g = r.g, G = r.G, suction = r.suction, inverse_depth = r.inverse_depth;
    const float *h = r.h, *up = r.h_up, *down = r.h_down, *way = r.way, *way_up = r.way_up, *way_down = r.way_down;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float e = h[i] + r.b[i];
        const float around = ((h[i - 1] + r.b[i - 1]) - e) + ((h[i + 1] + r.b[i + 1]) - e) +
                             ((up[i] + r.b_up[i]) - e) + ((down[i] + r.b_down[i]) - e);
        const float edges = (h[i - 1] + way[i - 1] > 0 ? 0.0f : 1.0f) + (h[i + 1] + way[i + 1] > 0 ? 0.0f : 1.0f) +
                            (up[i] + way_up[i] > 0 ? 0.0f : 1.0f) + (down[i] + way_down[i] > 0 ? 0.0f : 1.0f);
        const float lines = h[i] > 0 ? edges * G : 0.0f;
        const float x = h[i] * inverse_depth, t = 1.0f / (1.0f + x * x);
        r.p[i] = g * e - G * around + lines * h[i] - suction * t * t;
        r.diagonal[i] = g + 4.0f * G + lines + 4.0f * suction * inverse_depth * x * t * t * t;
    }
}

TIDEMARK_CLONES void ahead_row(const AheadRow& r, int begin, int end) {
    const float *h = r.h, *qx = r.qx, *qy = r.qy, *up = r.qy_up, k = r.k;
    float* ahead = r.ahead;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float then = h[i] - k * ((qx[i] - qx[i - 1]) + (qy[i] - up[i]));
        const float least = 0.5f * h[i], most = 1.5f * h[i];
        const float bounded = then < most ? then : most;
        ahead[i] = bounded > least ? bounded : least;
    }
}

namespace {

inline float at_least_0(float x) { return x > 0 ? x : 0.0f; }

/// The depth of a face is the mean of the two depths above the higher bed; where the drive is mostly tilt it shifts
/// to the upwind depth (`shift` 0 ... 1), for a draining film is a wave that travels downhill. A donor lends at most
/// twice its own depth. Held water only trickles.
///
/// With inertia a face goes on with the speed it has. Its cell weighs what it does now (momentum_rows.h), the pressure
/// works on the depth to come: so what it gives to the two sides of a shock is what they need. Water that
/// friction does not stop within a cell, v h²/3ν, climbs a step as high as its head v²/2g (Bernoulli).
///
/// Air that blows along the film drags water with it from the donor's side, q = τ h²/(2ρν) (Couette's shear flow, as
/// in Levich 1962): 1.5 τ/ρ · h²/(3ν).
template <bool tilted, bool inertia, bool blown>
__attribute__((always_inline)) inline void faces(const FaceRow& r, int begin, int end) {
    const float dx = r.dx, inverse_dx = 1.0f / dx, inverse_dt = 1.0f / r.dt, slope = r.slope, held = r.held;
    const float from_a = slope > 0 ? 1.0f : 0.0f, steep = slope > 0 ? slope : -slope;
    const float inverse_steep = tilted ? 2.0f / steep : 0.0f, sign = slope > 0 ? 1.0f : -1.0f;
    const float k = r.dt * inverse_dx * inverse_dx;
    const float half_nu3 = 0.5f * r.nu3, felt3 = 3.0f * r.felt_permeability, trickle = r.valley_share,
                cap = r.mobility_cap, inverse_twice_g = 1.0f / r.twice_g;
    const float push = r.push, from_donor_a = push > 0 ? 1.0f : 0.0f;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float rise = r.bed_b[i] - r.bed_a[i];
        const float nu3 = half_nu3 * (r.factor_a[i] + r.factor_b[i]);
        float climb = at_least_0(rise), fall = at_least_0(-rise);
        if (inertia) {
            const float v = r.speed[i], mean = 0.5f * (r.now_a[i] + r.now_b[i]), runs = (v > 0 ? v : -v) * mean * mean;
            const float head = v * v * inverse_twice_g * runs / (runs + nu3 * dx + 1e-30f);
            climb = at_least_0(climb - head), fall = at_least_0(fall - head);
        }
        const float a = at_least_0(r.h_a[i] - climb), b = at_least_0(r.h_b[i] - fall);
        const float drive = (r.p_a[i] - r.p_b[i]) * inverse_dx + slope;
        float depth = 0.5f * (a + b), shift = 0, driven = drive;
        if (tilted) {
            const float downhill = drive * sign;
            shift = downhill * inverse_steep;
            shift = shift > 0 ? shift : 0.0f;
            shift = shift < 1 ? shift : 1.0f;
            const float fade = 2.0f * steep / ((downhill > steep ? downhill : steep) + 1e-20f);
            shift = shift < fade ? shift : fade;
            depth += shift * ((from_a * a + (1.0f - from_a) * b) - depth);
        }
        if (inertia)
            driven += r.speed[i] * inverse_dt;
        const float lent = 2.0f * (driven > 0 ? a : b), way = r.way_a[i] < r.way_b[i] ? r.way_a[i] : r.way_b[i];
        depth = depth < lent ? depth : lent;
        depth = depth < way ? depth : way;
        const float moving = at_least_0(depth - held), shut = depth < held ? depth : held;
        // Through the felt, never faster than as a free film; where only the valleys wick, a trickle.
        const float cube = shut * shut * shut, through = felt3 * shut;
        const float seep = way < 1.0f ? trickle * cube : (through < cube ? through : cube);
        float m = 0, over_nu3 = 0, over_drag = 0; // one division serves both denominators
        if (inertia) {
            const float lag = moving * moving * inverse_dt, drag = nu3 + lag, inverse = 1.0f / (drag * nu3);
            over_drag = inverse * nu3;
            over_nu3 = inverse * drag;
        } else {
            over_nu3 = over_drag = 1.0f / nu3;
        }
        m = moving * moving * moving * over_drag;
        float q = m * driven;
        if (inertia) {
            const float now = r.now_a[i] + r.now_b[i], gain = (r.h_a[i] + r.h_b[i]) - now;
            const float more = m * gain / (now + 1e-12f) * (moving * moving * inverse_dt * over_drag);
            q += more * drive, m += more;
        }
        const float free = m;
        m += seep * over_nu3;
        if (inertia) { // what trickles has no momentum: for all that passes, as if the face were so much deeper
            const float as_deep = moving * (m / (free > 0 ? free : 1.0f)); // divides always: a branch would stop the vector
            r.depth[i] = free > 0 ? as_deep : 1.0f;
        }
        q += seep * over_nu3 * drive;
        const float capped = m < cap ? m : cap;
        q = m > cap ? capped * driven : q;
        if (blown) {
            const float donor = from_donor_a * a + (1.0f - from_donor_a) * b, least = donor < way ? donor : way, top = at_least_0(least - held);
            q += push * top * top * over_drag;
        }
        r.q[i] = q;
        r.c[i] = k * capped;
    }
}

} // namespace

TIDEMARK_CLONES void face_row(const FaceRow& r, int begin, int end, bool inertia) {
    if (r.push != 0) {
        if (r.slope != 0) {
            inertia ? faces<true, true, true>(r, begin, end) : faces<true, false, true>(r, begin, end);
        } else {
            inertia ? faces<false, true, true>(r, begin, end) : faces<false, false, true>(r, begin, end);
        }
    } else if (r.slope != 0) {
        inertia ? faces<true, true, false>(r, begin, end) : faces<true, false, false>(r, begin, end);
    } else {
        inertia ? faces<false, true, false>(r, begin, end) : faces<false, false, false>(r, begin, end);
    }
}

} // namespace tidemark::water
