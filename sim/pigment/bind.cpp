#include "pigment/bind.h"

#include "grid/rows.h"
#include "pigment/bind_rows.h"
#include "pigment/hold.h"

#include <algorithm>
#include <array>

namespace tidemark::pigment {

double loosened_share(double staining, double gum_per_pigment) {
    return (1 - staining) / (1 + gum_per_pigment / usual_gum_share);
}

namespace {

constexpr int piece = 128; ///< cells in one go; a piece with nothing to set down is skipped

void bind_piece(sheet::SheetState& s, const sheet::StageRule& rule, int j, int b, int n) {
    std::array<float, piece> bare, dry;
    const float* film = s.film_m.row(j) + b;
    if (!bare_row(n, film, bare.data()))
        return;
    const bool binds = dry_row(n, rule, film, s.front_kg_m2.row(j) + b, dry.data());
    for (auto& p : s.pigments) {
        if (!p.may_be_in(j, b, b + n))
            continue;
        float *lower = p.afloat_lower.row(j) + b, *upper = p.afloat_upper.row(j) + b, *loose = p.loose.row(j) + b;
        if (any(n, lower) || any(n, upper))
            set_down_row(n, bare.data(), lower, upper, loose);
        if (binds && any(n, loose))
            bind_row(n, dry.data(), loose, p.bound.row(j) + b);
    }
    float *lower = s.gum_lower_kg_m2.row(j) + b, *upper = s.gum_upper_kg_m2.row(j) + b;
    if (any(n, lower) || any(n, upper))
        set_down_row(n, bare.data(), lower, upper, s.gum_bound_kg_m2.row(j) + b);
}

} // namespace

void bind_dried(sheet::SheetState& s) {
    const sheet::StageRule rule = sheet::stage_rule(s);
    const int nx = s.geometry.nx, ny = s.geometry.ny;
    grid::for_rows(ny, static_cast<long>(nx) * ny, [&](int j) {
        for (int b = 0; b < nx; b += piece)
            bind_piece(s, rule, j, b, std::min(piece, nx - b));
    });
}

namespace {
double gum_per_pigment(const sheet::SheetState& s, int i, int j) {
    double pigment = 0;
    for (const auto& p : s.pigments)
        pigment += p.bound(i, j) + p.inside(i, j);
    for (const auto& pass : s.passes)
        for (const auto& bound : pass.bound)
            pigment += bound(i, j);
    return pigment > 0 ? s.gum_bound_kg_m2(i, j) / pigment : 0;
}

sheet::Pass& pass_at(sheet::SheetState& s, int index) {
    while (static_cast<int>(s.passes.size()) <= index) {
        sheet::Pass pass;
        for (std::size_t k = 0; k < s.pigments.size(); ++k)
            pass.bound.emplace_back(s.film_m.nx(), s.film_m.ny(), 0.0f);
        s.passes.push_back(std::move(pass));
    }
    return s.passes[index];
}
} // namespace

void begin_pass(sheet::SheetState& s, int i, int j) {
    if (s.film_m(i, j) >= no_film_m)
        return;
    bool holds = false;
    for (const auto& p : s.pigments)
        holds = holds || p.bound(i, j) > 0 || p.inside(i, j) > 0;
    if (!holds)
        return;
    const double gum = gum_per_pigment(s, i, j);
    std::uint8_t& count = s.pass_count(i, j);
    if (count < most_passes)
        ++count;
    sheet::Pass& pass = pass_at(s, count - 1);
    for (std::size_t k = 0; k < s.pigments.size(); ++k) {
        auto& p = s.pigments[k];
        const double share = loosened_share(p.pigment.staining, gum);
        pass_on(p.bound(i, j), p.afloat_lower(i, j), static_cast<float>(share) * p.bound(i, j));
        pass.bound[k](i, j) += p.bound(i, j) + p.inside(i, j);
        p.bound(i, j) = p.inside(i, j) = 0;
    }
}

void scrub_cell(sheet::SheetState& s, int i, int j, double share) {
    const double hard = std::clamp(share, 0.0, 1.0);
    for (std::size_t k = 0; k < s.pigments.size(); ++k) {
        auto& p = s.pigments[k];
        const float freed = static_cast<float>(hard * (1 - p.pigment.staining));
        pass_on(p.bound(i, j), p.loose(i, j), freed * p.bound(i, j));
        for (auto& pass : s.passes)
            pass_on(pass.bound[k](i, j), p.loose(i, j), freed * pass.bound[k](i, j));
    }
}

} // namespace tidemark::pigment
