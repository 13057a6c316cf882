#include "pigment/bind.h"

#include "grid/rows.h"
#include "pigment/hold.h"

namespace tidemark::pigment {

double loosened_share(double staining, double gum_per_pigment) {
    return (1 - staining) / (1 + gum_per_pigment / usual_gum_share);
}

void bind_dried(sheet::SheetState& s) {
    const sheet::StageRule rule = sheet::stage_rule(s);
    const int nx = s.geometry.nx, ny = s.geometry.ny;
    grid::for_rows(ny, static_cast<long>(nx) * ny, [&](int j) {
        for (int i = 0; i < nx; ++i) {
            if (s.film_m(i, j) >= no_film_m)
                continue;
            const bool dry = sheet::stage_of(rule, s.film_m(i, j), s.front_kg_m2(i, j)) == sheet::CellStage::dry;
            for (auto& p : s.pigments) {
                p.loose(i, j) += p.afloat_lower(i, j) + p.afloat_upper(i, j);
                p.afloat_lower(i, j) = p.afloat_upper(i, j) = 0;
                if (!dry)
                    continue;
                p.bound(i, j) += p.loose(i, j);
                p.loose(i, j) = 0;
            }
            s.gum_bound_kg_m2(i, j) += s.gum_lower_kg_m2(i, j) + s.gum_upper_kg_m2(i, j);
            s.gum_lower_kg_m2(i, j) = s.gum_upper_kg_m2(i, j) = 0;
        }
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
        pass_on(p.bound(i, j), p.loose(i, j), static_cast<float>(share) * p.bound(i, j));
        pass.bound[k](i, j) += p.bound(i, j) + p.inside(i, j);
        p.bound(i, j) = p.inside(i, j) = 0;
    }
}

} // namespace tidemark::pigment
