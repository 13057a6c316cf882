/// Small sheets for the pigment tests: everything awake, film and fluxes set by hand.
#pragma once
#include "pigment/transport.h"
#include "sheet/sheet_state.h"

#include <cmath>
#include <cstdint>

namespace tidemark::pigment_scene {

inline materials::Pigment
grain(double density_kg_m3, double d50_m, double staining = 0.5, double gsd = 1.0, double flocculation = 0.0) {
    materials::Pigment p;
    p.id = "test", p.density_kg_m3 = density_kg_m3, p.d50_m = d50_m;
    p.staining = staining, p.gsd = gsd, p.flocculation = flocculation;
    return p;
}

/// nx × ny cells of 0.5 mm, even film.
inline sheet::SheetState flooded(int nx, int ny, float film_m, const std::vector<materials::Pigment>& pigments) {
    constexpr double cell_m = 0.5e-3;
    auto s = sheet::SheetState::make(nx * cell_m, ny * cell_m, cell_m, materials::Paper{}, materials::Room{},
                                     sheet::BoardKind::sealed, pigments, 1);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            s.film_m(i, j) = s.film_before_m(i, j) = film_m;
    for (auto* tiles : {&s.film_tiles, &s.damp_tiles})
        tiles->set_all(true), tiles->rebuild();
    return s;
}

/// Repeatable numbers in [0, 1).
struct Dice {
    std::uint64_t state;
    float operator()() {
        state = state * 6364136223846793005ull + 1442695040888963407ull;
        return static_cast<float>(state >> 40) * 0x1p-24f;
    }
};

/// Film after the step the fluxes stand for: before - dt div q.
inline void pour(sheet::SheetState& s, double dt_s) {
    const double k = dt_s / s.geometry.cell_m;
    s.film_before_m = s.film_m;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            const double div = (double(s.flux_x_m2_s(i, j)) - s.flux_x_m2_s(i - 1, j)) +
                               (double(s.flux_y_m2_s(i, j)) - s.flux_y_m2_s(i, j - 1));
            s.film_m(i, j) = static_cast<float>(s.film_before_m(i, j) - k * div);
        }
}

/// Random fluxes in a sheet with closed borders; no cell loses more than 4 × reach of its film in dt.
inline void random_fluxes(sheet::SheetState& s, Dice& dice, double dt_s, double reach) {
    const float scale = static_cast<float>(reach * s.geometry.cell_m / dt_s);
    const int nx = s.geometry.nx, ny = s.geometry.ny;
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            const float a = 2 * dice() - 1, b = 2 * dice() - 1;
            s.flux_x_m2_s(i, j) = i + 1 < nx ? a * scale * std::min(s.film_m(i, j), s.film_m(i + 1, j)) : 0.0f;
            s.flux_y_m2_s(i, j) = j + 1 < ny ? b * scale * std::min(s.film_m(i, j), s.film_m(i, j + 1)) : 0.0f;
        }
}

template <class F> double total(const sheet::SheetState& s, const F& field) {
    double sum = 0;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            sum += field(i, j);
    return sum;
}

/// Everything there is of one pigment, kg/m² summed over cells.
inline double everything(const sheet::SheetState& s, std::size_t k) {
    const auto& p = s.pigments[k];
    double sum = total(s, p.afloat_lower) + total(s, p.afloat_upper) + total(s, p.loose) + total(s, p.bound) +
                 total(s, p.inside);
    for (const auto& pass : s.passes)
        sum += total(s, pass.bound[k]);
    return sum;
}

} // namespace tidemark::pigment_scene
