#include "water/downhill_rows.h"

#include "grid/rows.h"

namespace tidemark::water {
namespace {

constexpr int newton_steps = 5; // from above: each lands between the root and the last

inline float positive(float x) { return x > 0 ? x : 0.0f; }

struct Drained {
    float ahead, out;
};

/// One cell: what it has, its drive, and what of its depth does not run.
__attribute__((always_inline)) inline Drained
drain(float has, float drive, float steep, float k_over_nu3, float still, float way) {
    // The share of the drive that is tilt, as in the faces (faces.h).
    float shift = 2.0f * drive / steep;
    shift = shift > 0 ? shift : 0.0f;
    shift = shift < 1 ? shift : 1.0f;
    const float fade = 2.0f * steep / (drive > steep ? drive : steep);
    shift = shift < fade ? shift : fade;
    const float kappa = way > 0 ? k_over_nu3 * shift * positive(drive) : 0.0f;
    const float runs = positive(has - still);
    float x = runs;
    for (int n = 0; n < newton_steps; ++n) {
        const float a = kappa * x * x;
        x = (2.0f * a * x + runs) / (1.0f + 3.0f * a);
    }
    const float out = runs - x;
    const float most = kappa * way * way * way; // a creeping line lets no more pass
    const float leaves = out < most ? out : most;
    return {has - leaves, leaves};
}

} // namespace

TIDEMARK_CLONES void march_row(const MarchRow& r, int begin, int end) {
    const float *h = r.h, *bed = r.bed, *bed_to = r.bed_to, *p = r.p, *p_to = r.p_to, *way = r.way, *way_to = r.way_to;
    const float *factor = r.factor, *factor_to = r.factor_to;
    float *passing = r.passing, *ahead = r.ahead;
    const float steep = r.steep, inverse_dx = r.inverse_dx, held = r.held, k = r.k, half_nu3 = 0.5f * r.nu3;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float drive = (p[i] - p_to[i]) * inverse_dx + steep;
        const float narrow = way[i] < way_to[i] ? way[i] : way_to[i];
        const Drained d = drain(h[i] + passing[i], drive, steep, k / (half_nu3 * (factor[i] + factor_to[i])),
                                held + positive(bed_to[i] - bed[i]), narrow);
        ahead[i] = d.ahead;
        passing[i] = d.out;
    }
}

TIDEMARK_CLONES void march_along(const MarchRow& r, int begin, int end, int step, float arriving) {
    float passing = arriving;
    for (int n = 0; n < end - begin; ++n) {
        const int i = step > 0 ? begin + n : end - 1 - n, to = i + step;
        const float drive = (r.p[i] - r.p[to]) * r.inverse_dx + r.steep;
        const float narrow = r.way[i] < r.way[to] ? r.way[i] : r.way[to];
        const Drained d =
            drain(r.h[i] + passing, drive, r.steep, r.k / (0.5f * r.nu3 * (r.factor[i] + r.factor[to])),
                  r.held + positive(r.bed[to] - r.bed[i]), narrow);
        r.ahead[i] = d.ahead;
        passing = d.out;
    }
}

TIDEMARK_CLONES void chain_row(const ChainRow& r, int begin, int end) {
    const float *h = r.h, *qx = r.qx, *qx_left = r.qx_left;
    float *q_in = r.q_in, *q_out = r.q_out, *given = r.given;
    const float k = r.k, sign = r.sign;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float in = sign * q_in[i], down = sign * q_out[i];
        const float has = h[i] + k * positive(in);
        const float out = k * (positive(qx[i]) + positive(-qx_left[i]) + positive(down) + positive(-in));
        const float g = out > has ? 0.999999f * has / out : 1.0f;
        given[i] = g;
        q_in[i] *= in < 0 ? g : 1.0f;
        q_out[i] *= down > 0 ? g : 1.0f;
    }
}

TIDEMARK_CLONES void chain_along(const ChainAlong& r, int begin, int end, int step) {
    const float k = r.k;
    for (int n = 0; n < end - begin; ++n) {
        const int i = step > 0 ? begin + n : end - 1 - n;
        float &in_face = r.q[step > 0 ? i - 1 : i], &out_face = r.q[step > 0 ? i : i - 1];
        const float in = step * in_face, down = step * out_face;
        const float has = r.h[i] + k * positive(in);
        const float out = k * (positive(r.qy[i]) + positive(-r.qy_up[i]) + positive(down) + positive(-in));
        const float g = out > has ? 0.999999f * has / out : 1.0f;
        r.given[i] = g;
        in_face *= in < 0 ? g : 1.0f;
        out_face *= down > 0 ? g : 1.0f;
    }
}

} // namespace tidemark::water
