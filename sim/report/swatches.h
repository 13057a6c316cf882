/// Every pigment by itself, thin to thick, wet and dry: numbers, a table, and a chart as painters make by hand.
///
/// One even layer on bare paper (sheet::layer_seen). Wet: under a film of water, the paper soaked, before anything has
/// settled unevenly; dry: matt. Colours are those of the light named, L*a*b* by its own white (colour/lab.h).
#pragma once
#include "colour/lab.h"
#include "grid/picture.h"
#include "materials/cautions.h"
#include "materials/paper.h"
#include "materials/pigment.h"

#include <array>
#include <string>
#include <vector>

namespace tidemark::report {

/// A breath, a pale wash, a wash, a strong one, as thick as transparent colour is used (common practice).
inline constexpr std::array swatch_loads_kg_m2{0.1e-3, 0.3e-3, 1e-3, 3e-3, 8e-3};

struct Seen {
    colour::Lab lab;
    colour::Srgb8 code;
};
struct Swatch {
    double load_kg_m2 = 0;
    Seen wet, dry;
};
struct SwatchRow {
    materials::Pigment pigment;
    std::vector<Swatch> swatches; ///< one a load
};

struct Swatches {
    std::string paper; ///< its id
    colour::Light light = colour::Light::D65;
    Seen bare; ///< the paper, dry
    std::vector<SwatchRow> rows;
};
Swatches swatches(const materials::Paper&, const std::vector<materials::Pigment>&, colour::Light);

/// "D65", "D50"
std::string light_name(colour::Light);

/// id,load_g_m2,light,wet_L,wet_a,wet_b,dry_L,dry_a,dry_b
/// PB29,0.1,D65,88.12,-0.41,-2.5,91.27,-0.57,-1.88
std::string swatch_table(const Swatches&);

/// A card of that paper, 2400 pixels wide: two columns of pigments in the order given, their swatches with L* below, and
/// a line for every caution of level medium or high that concerns one of them.
grid::Picture swatch_card(const Swatches&, const std::vector<materials::Caution>&);

} // namespace tidemark::report
