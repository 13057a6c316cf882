#include "fibre/uptake.h"

#include "grid/rows.h"
#include "grid/units.h"
#include "sheet/sheet_state.h"

#include <cmath>

namespace tidemark::fibre {
namespace {

// By value and without branches, so that the loop becomes vector code.
inline double lesser(double a, double b) { return a < b ? a : b; }
inline double greater(double a, double b) { return a > b ? a : b; }

TIDEMARK_CLONES void cells(int n,
                           double s2dt,
                           double equilibrium,
                           double capacity,
                           const std::uint8_t* __restrict surface,
                           float* __restrict film,
                           float* __restrict low,
                           double* __restrict front,
                           const double* __restrict back,
                           float* __restrict drawn,
                           double* __restrict moved) {
    constexpr double per_m = grid::water_kg_m3;
    constexpr int reserved = static_cast<int>(sheet::Surface::reserved);
    for (int i = 0; i < n; ++i) {
        const float h = film[i], l = low[i];
        const int drinks = (h > 0) & (surface[i] != reserved);
        const double w = front[i], depth = static_cast<double>(h) + static_cast<double>(l);
        const double ahead = greater(w - equilibrium, 0.0);
        const double passed = lesser(greater(back[i] - equilibrium, 0.0), ahead);
        const double I = (ahead + passed) * (1 / per_m);
        const double dI = s2dt / (std::sqrt(I * I + s2dt) + I + 1e-30);
        const double room_for = greater(capacity - w, 0.0) * (1 / per_m);
        const double goal = depth - lesser(lesser(dI, room_for), depth);
        const float high = static_cast<float>(goal);
        const float rest = static_cast<float>(goal - static_cast<double>(high));
        const double change = (depth - (static_cast<double>(high) + static_cast<double>(rest))) * per_m;
        const double taken = drinks ? change : 0.0; // as the stored film changed
        film[i] = drinks ? high : h;
        low[i] = drinks ? rest : l;
        front[i] = w + taken;
        moved[i] = taken;
        drawn[i] = static_cast<float>(taken * (1 / per_m));
    }
}

} // namespace

void uptake_stretch(int n,
                    const UptakeStep& u,
                    const std::uint8_t* surface,
                    float* film,
                    float* film_low,
                    double* front,
                    const double* back,
                    float* drawn,
                    double* moved) {
    cells(n, u.sorptivity2_dt_m2, u.equilibrium_kg_m2, u.capacity_kg_m2, surface, film, film_low, front, back, drawn,
          moved);
}

} // namespace tidemark::fibre
