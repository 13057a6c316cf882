#include "sheet/look.h"
#include "sheet/stage.h"
#include "viewer/studio/snapshot_detail.h"

#include <cmath>

namespace tidemark::viewer {

namespace {

struct Sampled {
    int k = 1;
    sheet::Geometry to{};
    explicit Sampled(const sheet::Geometry& g) : to(g) {
        const auto fewer = [](int n, int by) { return (n + by - 1) / by; };
        while (static_cast<std::int64_t>(fewer(g.nx, k)) * fewer(g.ny, k) > most_cells) ++k;
        constexpr int tile = grid::TileSet::size;
        to.nx = fewer(g.nx, k), to.ny = fewer(g.ny, k), to.cell_m = g.cell_m * k;
        to.px = fewer(to.nx, tile) * tile, to.py = fewer(to.ny, tile) * tile;
        last_i = g.nx - 1, last_j = g.ny - 1;
    }
    template <class T> grid::Field<T> operator()(const grid::Field<T>& from) const {
        grid::Field<T> out(to.px, to.py);
        for (int j = 0; j < to.ny; ++j) {
            const T* row = from.row(std::min(j * k + k / 2, last_j));
            T* out_row = out.row(j);
            for (int i = 0; i < to.nx; ++i) out_row[i] = row[std::min(i * k + k / 2, last_i)];
        }
        return out;
    }

  private:
    int last_i = 0, last_j = 0;
};

} // namespace

sheet::SheetState seen_cells(const sheet::SheetState& s) {
    const Sampled sampled(s.geometry);
    sheet::SheetState out;
    out.geometry = sampled.to;
    out.paper = s.paper, out.room = s.room, out.still_humidity = s.still_humidity, out.time_s = s.time_s;
    out.relief_m = sampled(s.relief_m), out.relief_subgrid_rms_m = s.relief_subgrid_rms_m;
    out.film_m = sampled(s.film_m), out.front_kg_m2 = sampled(s.front_kg_m2), out.back_kg_m2 = sampled(s.back_kg_m2);
    for (const sheet::PigmentState& p : s.pigments)
        out.pigments.push_back({.pigment = p.pigment, .afloat_lower = sampled(p.afloat_lower), .afloat_upper = sampled(p.afloat_upper),
                                .loose = sampled(p.loose), .bound = sampled(p.bound), .inside = sampled(p.inside), .tiles = {}});
    for (const sheet::Pass& pass : s.passes) {
        auto& to = out.passes.emplace_back();
        for (const auto& bound : pass.bound) to.bound.push_back(sampled(bound));
    }
    return out;
}

Moment snapshot(const sheet::SheetState& s) {
    const auto& g = s.geometry;
    Moment m;
    m.time_s = s.time_s, m.parts = all_parts, m.cell_m = g.cell_m, m.nx = g.nx, m.ny = g.ny;
    const sheet::Look dried = sheet::look(s, sheet::LookAs::dried);
    m.dried_rgb = dried.picture.rgb;
    m.now_rgb = sheet::look(s, sheet::LookAs::as_now).picture.rgb;
    const sheet::StageRule rule = sheet::stage_rule(s);
    const std::size_t n = static_cast<std::size_t>(m.nx) * m.ny;
    m.lstar_code.resize(n), m.film_code.resize(n), m.moisture_code.resize(n), m.stage.resize(n);
    for (int j = 0; j < m.ny; ++j)
        for (int i = 0; i < m.nx; ++i) {
            const std::size_t at = m.at(i, j);
            const double held = (s.front_kg_m2(i, j) + s.back_kg_m2(i, j)) / s.paper.capacity_kg_m2;
            m.lstar_code[at] = lstar_code(dried.lstar(i, j));
            m.film_code[at] = film_code(s.film_m(i, j));
            m.moisture_code[at] = static_cast<std::uint8_t>(std::lround(255 * std::clamp(held, 0.0, 1.0)));
            m.stage[at] = static_cast<std::uint8_t>(sheet::stage_of(rule, s.film_m(i, j), s.front_kg_m2(i, j)));
        }
    for (std::size_t p = 0; p < s.pigments.size(); ++p) {
        auto& codes = m.load_codes.emplace_back(static_cast<std::size_t>(m.load_nx()) * m.load_ny());
        for (int j = 0; j < m.load_ny(); ++j)
            for (int i = 0; i < m.load_nx(); ++i) {
                double sum = 0;
                int cells = 0;
                for (int y = 2 * j; y < std::min(2 * j + 2, m.ny); ++y)
                    for (int x = 2 * i; x < std::min(2 * i + 2, m.nx); ++x) sum += s.pigment_kg_m2(p, x, y), ++cells;
                codes[static_cast<std::size_t>(j) * m.load_nx() + i] = load_code(static_cast<float>(sum / cells));
            }
    }
    return m;
}

} // namespace tidemark::viewer
