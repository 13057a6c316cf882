/// The sheet as an eye sees it: lightness for the judge, sRGB for the picture. Reads the sheet, changes nothing.
///
/// Paper is the ground; every dried pass, oldest first, lies over it as a layer, then the pass being painted; K and S
/// add by mass within a layer (colour/layer.h). Fields and picture are nx × ny, without the padding.
///
///   dried   as it will be once dry: all that is afloat settles in place into the present pass; dry matt surface
///   as_now  what is afloat is a layer of its own, on top; cells with film are seen through water; the ground is
///           darker by the water in its pores: front moisture beyond what the fibres bind (the isotherm at activity 1,
///           which swells the cell walls and leaves the pores to the air), as a share of the rest of the capacity
///
/// Range   K and S of 0 to 1e5 m²/kg, a white of 0 to 1, of one even layer 0 to 10 kg/m²; else refused
///         (grid/within.h). Layers without gloss between them, lit and seen diffusely (colour/layer.h).
/// Unevenness finer than a cell lightens a granulating wash (uneven.h). Left out: less scattering of paint in water.
#pragma once
#include <utility>
#include <vector>

#include "colour/layer.h"
#include "grid/picture.h"
#include "sheet/sheet_state.h"

namespace tidemark::sheet {

struct Look {
    grid::Field<float> lstar; ///< 0 ... 100
    grid::Picture picture;
};

enum class LookAs { dried, as_now };

Look look(const SheetState&, LookAs);

/// The bare sheet's body reflectance, dry.
colour::BodyReflectance ground_of(const materials::Paper&);

/// Share of the front half's pores that hold water, 0 ... 1.
double wet_share(const materials::Paper&, double front_kg_m2);

/// One even layer of these pigments (kg/m² each) on that paper to the eye: dried, or as_now under a film of water, with
/// the paper's pores full.
colour::Reflectance layer_seen(const materials::Paper&,
                               const std::vector<std::pair<const materials::Pigment*, double>>& mix, LookAs);

/// L* (0 ... 100) of one dry, even layer of these pigments (kg/m² each) on that paper.
double dried_lstar(const materials::Paper&, const std::vector<std::pair<const materials::Pigment*, double>>& mix);

} // namespace tidemark::sheet
