#include <algorithm>

#include "colour/layer.h"

namespace tidemark::colour {

namespace {

/// (1 - r_e(1.5/1.333)) / (1 - r_e(1.5)), r_e the reflectance of a flat surface for diffuse light from outside:
/// fibre in water turns less light away before it can be absorbed than fibre in air does.
constexpr float less_turned_away = 1.06767f;

} // namespace

BodyReflectance wetted(const BodyReflectance& dry, double share) {
    const Reflectance measured = seen_through(dry_matt, dry);
    const float wet_share = static_cast<float>(std::clamp(share, 0.0, 1.0));
    BodyReflectance body;
    for (std::size_t k = 0; k < bands; ++k) {
        const float a_dry = 1 - measured.at[k];
        const float a_wet = a_dry * ((1 - a_dry) * less_turned_away + a_dry);
        // A ground so dark that the gloss is most of what is seen of it does not get lighter with water.
        const float wet = std::min(1 - a_wet, dry.at[k]);
        body.at[k] = dry.at[k] + wet_share * (wet - dry.at[k]);
    }
    return body;
}

} // namespace tidemark::colour
