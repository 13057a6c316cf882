#include "pigment/viscosity.h"

#include "grid/rows.h"
#include "pigment/hold.h"

#include <algorithm>
#include <array>

namespace tidemark::pigment {
namespace {

constexpr int piece = 256;

TIDEMARK_CLONES void
add_scaled(int n, float scale, const float* __restrict a, const float* __restrict b, float* __restrict sum) {
    for (int i = 0; i < n; ++i)
        sum[i] += scale * (a[i] + b[i]);
}

TIDEMARK_CLONES void factors(int n,
                             const float* __restrict film,
                             const float* __restrict solids,
                             const float* __restrict gum_lower,
                             const float* __restrict gum_upper,
                             float* __restrict factor) {
    for (int i = 0; i < n; ++i) {
        const float per_film = 1.0f / (film[i] > no_film_m ? film[i] : no_film_m);
        const float f = crowding(solids[i] * per_film) * gum_thickening((gum_lower[i] + gum_upper[i]) * per_film);
        factor[i] = film[i] >= no_film_m ? f : 1.0f;
    }
}

} // namespace

void film_viscosity(const sheet::SheetState& s, grid::Field<float>& nu_factor) {
    const int nx = s.film_m.nx(), ny = s.film_m.ny();
    if (nu_factor.nx() != nx || nu_factor.ny() != ny)
        nu_factor.resize(nx, ny, 1.0f);
    grid::for_rows(ny, s.film_tiles.cells(), [&](int j) {
        for (const grid::Span span : s.film_tiles.spans(j))
            for (int b = span.begin; b < span.end; b += piece) {
                const int n = std::min(piece, span.end - b);
                std::array<float, piece> solids{};
                for (const auto& p : s.pigments)
                    if (p.may_be_in(j, b, b + n))
                        add_scaled(n, static_cast<float>(1 / p.pigment.density_kg_m3), p.afloat_lower.row(j) + b,
                                   p.afloat_upper.row(j) + b, solids.data());
                factors(n, s.film_m.row(j) + b, solids.data(), s.gum_lower_kg_m2.row(j) + b,
                        s.gum_upper_kg_m2.row(j) + b, nu_factor.row(j) + b);
            }
    });
}

} // namespace tidemark::pigment
