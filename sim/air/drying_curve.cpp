#include "air/drying_curve.h"

#include "sheet/sheet_state.h"

#include <algorithm>
#include <cmath>

namespace tidemark::air {
namespace {

constexpr int intervals = 256;
constexpr int activities = 64;

/// s at activities n/64 and at the room's humidity exactly 0: the heat balance without sun.
class DryingShape {
  public:
    DryingShape(materials::Room room, double length_m, PlateSurface surface) : humidity_(room.humidity) {
        room.sun_W_m2 = room.longwave_W_m2 = 0;
        surface.activity = 1;
        const double wet = plate_evaporation(room, length_m, surface).rate_kg_m2_s;
        for (int n = 0; n <= activities; ++n) {
            surface.activity = static_cast<double>(n) / activities;
            const double gap = surface.activity - humidity_;
            // The still air's part turns over at gap 0; a node that close takes its neighbours' mean below.
            slope_[n] = std::abs(gap) < 0.3 / activities
                            ? 0
                            : plate_evaporation(room, length_m, surface).rate_kg_m2_s / (wet * gap);
        }
        for (int n = 1; n < activities; ++n)
            if (slope_[n] == 0)
                slope_[n] = 0.5 * (slope_[n - 1] + slope_[n + 1]);
        if (slope_[0] == 0)
            slope_[0] = slope_[1];
        if (slope_[activities] == 0)
            slope_[activities] = slope_[activities - 1];
    }
    double operator()(double a) const {
        const double x = a * activities;
        const int n = std::min(static_cast<int>(x), activities - 1);
        return (a - humidity_) * (slope_[n] + (x - n) * (slope_[n + 1] - slope_[n]));
    }

  private:
    double humidity_;
    double slope_[activities + 1] = {}; ///< s / (a - humidity)
};

} // namespace

DryingCurve make_drying_curve(const materials::Paper& paper,
                              const materials::Room& room,
                              double length_m,
                              const PlateSurface& surface) {
    DryingCurve c;
    c.equilibrium_kg_m2 = sheet::half_equilibrium_kg_m2(paper, room.humidity);
    c.saturated_kg_m2 = sheet::half_equilibrium_kg_m2(paper, 1.0);
    const double wet = std::max(plate_evaporation(room, length_m, surface).rate_kg_m2_s, 0.0);
    c.wet_kg_m2_s = static_cast<float>(wet);
    c.nodes_per_kg_m2 = static_cast<float>(intervals / c.saturated_kg_m2);
    const DryingShape shape(room, length_m, surface);
    const auto k = [&](double w) {
        return wet * shape(sheet::activity_of_half(paper, w)) / (w - c.equilibrium_kg_m2);
    };
    for (int n = 0; n <= intervals + 1; ++n) {
        const double w = n / static_cast<double>(c.nodes_per_kg_m2), near = 0.01 * c.equilibrium_kg_m2;
        const bool at_rest = std::abs(w - c.equilibrium_kg_m2) < near;
        c.k_1_s.push_back(static_cast<float>(
            at_rest ? 0.5 * (k(c.equilibrium_kg_m2 - near) + k(c.equilibrium_kg_m2 + near)) : k(w)));
    }
    return c;
}

double drying_rate_kg_m2_s(const DryingCurve& c, double w) {
    if (w >= c.saturated_kg_m2)
        return c.wet_kg_m2_s;
    const double x = std::max(w, 0.0) * c.nodes_per_kg_m2;
    const std::size_t n = static_cast<std::size_t>(x);
    return (w - c.equilibrium_kg_m2) * (c.k_1_s[n] + (x - n) * (c.k_1_s[n + 1] - c.k_1_s[n]));
}

} // namespace tidemark::air
