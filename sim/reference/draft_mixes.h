/// The four mixes a draft plan paints with, and how strong each must be to dry to a given value.
///
/// A draft needs no more than a neutral, a cool, a warm and a green, each from two common pigments; the painter puts
/// her own palette in their place. The strength table holds for a layer of the mix on white paper; it was computed
/// once with the pigments' K and S (presets/pigments.csv), the natural white of presets/paper_spectra.csv and the
/// layer of colour/layer.h. A test computes it again from those files.
#pragma once
#include <array>

namespace tidemark::reference {

struct MixPart {
    const char* pigment = "";
    double share = 0; ///< of the pigment's weight in the mix; the parts add to 1
};

constexpr int strength_steps = 18;
constexpr double first_load_g_m2 = 0.05; ///< each step is √2 times the one before: 0.05 ... 18 g/m²
constexpr double paper_lstar = 94.6;

struct DraftMix {
    const char* name = "";
    const char* looks = ""; ///< in a painter's words
    std::array<MixPart, 2> parts;
    std::array<float, strength_steps> lstar; ///< dry, at each load
};

/// By mean a*, b* of what is to be painted: neutral below a chroma of 6, else green for hues of 105 ... 200°, cool
/// for 200 ... 340°, warm for the rest.
const DraftMix& mix_for(double a, double b);
const std::array<DraftMix, 4>& draft_mixes();

/// g of pigment per m² that dries to `lstar`, straight between the steps in log load; 0 for paper white and lighter;
/// at most `strongest_load_g_m2`, as dark as one strong wash gets.
constexpr double strongest_load_g_m2 = 9;
double load_for(const DraftMix&, double lstar);
double lstar_at(const DraftMix&, double load_g_m2); ///< the table's ends for what is below 0 or above 18

} // namespace tidemark::reference
