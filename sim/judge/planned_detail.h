/// The sheet as the plan would have it if paint stayed where it is laid. Private to the room; see strength.h.
#pragma once
#include "colour/layer.h"
#include "grid/field.h"
#include "plan/plan.h"

#include <array>
#include <map>
#include <vector>

namespace tidemark::judge {

/// What one act leaves, planned.
struct Planned {
    int mix = -1;         ///< -1: no pigment
    double mix_kg_m2 = 0; ///< where it is laid; of a charge over all of its area
    bool broken = false;  ///< a dragged brush
    bool covers = false;  ///< what was there before is not to be seen as it was
};

/// `area_m2` is asked of the act's area only when its load is given in drops.
Planned planned(const plan::Plan&, const plan::Step&, double area_m2);

/// K and S of a kilogram of mix, m²/kg.
struct MixOptics {
    colour::Bands K{}, S{};
    colour::BodyReflectance over(const colour::BodyReflectance& ground, double mix_kg_m2) const;
};
MixOptics optics_of(const plan::Plan&, const plan::Mix&);

/// A pile of layers that some cells have in common.
struct Ground {
    colour::BodyReflectance dry, wet; ///< wet: on paper full of water
    std::array<int, 3> over{-1, -1, -1}; ///< steps, top one first
};

/// How much of each cell each act covers; strokes reach as far as their mark.
class Cover {
  public:
    Cover(const plan::Plan&, int nx, int ny);
    grid::Field<float> of(const plan::Step&); ///< of each area once, then kept
    int nx() const { return nx_; }
    int ny() const { return ny_; }

  private:
    const plan::Plan& plan_;
    int nx_, ny_;
    std::map<int, grid::Field<float>> areas_;
};

/// Which pile each cell has so far.
class Grounds {
  public:
    Grounds(const materials::Paper&, int nx, int ny);
    void lay(int step, const MixOptics&, double mix_kg_m2, const grid::Field<float>& cover);
    const std::vector<Ground>& all() const { return grounds_; }
    int at(int i, int j) const { return which_(i, j); }

  private:
    std::vector<Ground> grounds_;
    grid::Field<int> which_;
};

} // namespace tidemark::judge
