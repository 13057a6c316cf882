#include "pigment/advance.h"

#include "grid/rows.h"
#include "grid/within.h"
#include "pigment/advance_rows.h"
#include "pigment/bind_rows.h"
#include "sheet/stage.h"

#include <algorithm>
#include <array>

namespace tidemark::pigment {
namespace {

constexpr double gum_diffusivity_m2_s = 1e-11; ///< gum arabic in water, order of magnitude, from memory
constexpr int piece = 4 * grid::TileSet::size; ///< cells in one go; a piece with nothing in its film is skipped
using Buffer = std::array<float, piece>;

struct Buffers {
    Buffer per_half, upper_drawn, lower_drawn, slowing, thinning, shear, gone, solids, dry;
    FilmRow film() {
        return {per_half.data(), upper_drawn.data(), lower_drawn.data(), slowing.data(),
                thinning.data(), shear.data(),       gone.data()};
    }
};

/// Constant through a step.
struct Step {
    sheet::StageRule rule;
    float dt_s, viscosity_Pa_s;
};

void sum_solids(const sheet::SheetState& s, const PigmentWorkspace& w, int j, int b, int n, Buffer& solids) {
    solids.fill(0);
    for (std::size_t k = 0; k < s.pigments.size(); ++k)
        if (s.pigments[k].may_be_in(j, b, b + n))
            add_solids_row(n, w.motion[k].per_density, s.pigments[k].afloat_lower.row(j) + b,
                           s.pigments[k].afloat_upper.row(j) + b, solids.data());
}

/// What the film does to the pigments of a piece that has one, or had one a moment ago.
void in_film(sheet::SheetState& s, const PigmentWorkspace& w, const Step& step, int j, int b, int n, Buffers& at) {
    const FilmRow film = at.film();
    float *gum_l = s.gum_lower_kg_m2.row(j) + b, *gum_u = s.gum_upper_kg_m2.row(j) + b;
    film_water_row(n, s.film_m.row(j) + b, s.drawn_m.row(j) + b, film);
    const DragRow drag{at.solids.data(),
                       gum_l,
                       gum_u,
                       s.flux_x_m2_s.row(j) + b - 1,
                       s.flux_y_m2_s.row(j - 1) + b,
                       s.flux_y_m2_s.row(j) + b,
                       step.viscosity_Pa_s};
    const float most_shear_Pa = film_drag_row(n, drag, film);
    for (std::size_t k = 0; k < s.pigments.size(); ++k) {
        auto& p = s.pigments[k];
        if (!p.may_be_in(j, b, b + n))
            continue;
        const PigmentRow row{p.afloat_lower.row(j) + b, p.afloat_upper.row(j) + b, p.loose.row(j) + b,
                             p.bound.row(j) + b, p.inside.row(j) + b};
        const bool stirs = lifts(w.motion[k], most_shear_Pa);
        if (any(n, row.lower) || any(n, row.upper) || (stirs && any(n, row.loose)) ||
            any(n, row.bound) || any(n, row.inside))
            pigment_row(n, film, w.motion[k], step.dt_s, stirs, row);
    }
    gum_row(n, film, static_cast<float>(gum_diffusivity_m2_s), step.dt_s, gum_l, gum_u, s.gum_bound_kg_m2.row(j) + b);
}

void bind_piece(sheet::SheetState& s, const Step& step, int j, int b, int n, Buffer& dry) {
    if (!dry_row(n, step.rule, s.film_m.row(j) + b, s.front_kg_m2.row(j) + b, dry.data()))
        return;
    for (auto& p : s.pigments)
        if (p.may_be_in(j, b, b + n) && any(n, p.loose.row(j) + b))
            bind_row(n, dry.data(), p.loose.row(j) + b, p.bound.row(j) + b);
}

void advance_piece(sheet::SheetState& s, const PigmentWorkspace& w, const Step& step, int j, int b, int n) {
    Buffers at;
    sum_solids(s, w, j, b, n, at.solids);
    if (any(n, s.film_m.row(j) + b) || any(n, at.solids.data()) || any(n, s.gum_lower_kg_m2.row(j) + b) ||
        any(n, s.gum_upper_kg_m2.row(j) + b))
        in_film(s, w, step, j, b, n, at);
    bind_piece(s, step, j, b, n, at.dry);
    std::fill_n(s.drawn_m.row(j) + b, n, 0.0f);
}

} // namespace

void advance(sheet::SheetState& s, PigmentWorkspace& w, double dt_s) {
    grid::within("dt_s", dt_s, grid::step_of_time);
    if (!s.damp_tiles.any())
        return;
    w.fit(s);
    const double temperature_K = s.room.temperature_K;
    for (std::size_t k = 0; k < s.pigments.size(); ++k)
        w.motion[k] = grain_motion(s.pigments[k].pigment, temperature_K);
    const Step step{sheet::stage_rule(s), static_cast<float>(dt_s),
                    static_cast<float>(water_viscosity_Pa_s(temperature_K))};
    grid::for_rows(s.film_m.ny(), s.damp_tiles.cells(), [&](int j) {
        for (const grid::Span span : s.damp_tiles.spans(j))
            for (int b = span.begin; b < span.end; b += piece)
                advance_piece(s, w, step, j, b, std::min(piece, span.end - b));
    });
}

} // namespace tidemark::pigment
