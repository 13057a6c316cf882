#include "sheet/look.h"
#include "sheet/stage.h"
#include "viewer/work/snapshot_detail.h"

#include <cmath>

namespace tidemark::viewer {

namespace {

/// Of the cells of the sheet below one cell of the moment.
struct Block {
    int i0, j0, i1, j1;
    int cells() const { return (i1 - i0) * (j1 - j0); }
    template <class F> double mean(F&& f) const {
        double sum = 0;
        for (int j = j0; j < j1; ++j)
            for (int i = i0; i < i1; ++i) sum += f(i, j);
        return sum / cells();
    }
};

struct Joined {
    const sheet::SheetState& s;
    int k; ///< cells joined, each way
    Block block(int i, int j) const {
        return {i * k, j * k, std::min(s.geometry.nx, (i + 1) * k), std::min(s.geometry.ny, (j + 1) * k)};
    }
};

void take_picture(const grid::Picture& from, const Joined& joined, const Moment& m, std::vector<std::uint8_t>& to) {
    if (joined.k == 1) {
        to = from.rgb;
        return;
    }
    to.resize(static_cast<std::size_t>(m.nx) * m.ny * 3);
    for (int j = 0; j < m.ny; ++j)
        for (int i = 0; i < m.nx; ++i)
            for (int c = 0; c < 3; ++c)
                to[3 * m.at(i, j) + c] = static_cast<std::uint8_t>(
                    std::lround(joined.block(i, j).mean([&](int x, int y) { return from.at(x, y)[c]; })));
}

void take_water(const Joined& joined, Moment& m) {
    const sheet::SheetState& s = joined.s;
    const sheet::StageRule rule = sheet::stage_rule(s);
    const double holds = s.paper.capacity_kg_m2;
    const std::size_t n = static_cast<std::size_t>(m.nx) * m.ny;
    m.film_code.resize(n), m.moisture_code.resize(n), m.stage.resize(n);
    for (int j = 0; j < m.ny; ++j)
        for (int i = 0; i < m.nx; ++i) {
            const Block b = joined.block(i, j);
            const double film_m = b.mean([&](int x, int y) { return s.film_m(x, y); });
            const double front = b.mean([&](int x, int y) { return s.front_kg_m2(x, y); });
            const double back = b.mean([&](int x, int y) { return s.back_kg_m2(x, y); });
            m.film_code[m.at(i, j)] = film_code(static_cast<float>(film_m));
            m.moisture_code[m.at(i, j)] = static_cast<std::uint8_t>(std::lround(255 * std::clamp((front + back) / holds, 0.0, 1.0)));
            m.stage[m.at(i, j)] = static_cast<std::uint8_t>(sheet::stage_of(rule, static_cast<float>(film_m), front));
        }
}

void take_loads(const Joined& joined, Moment& m) {
    const sheet::SheetState& s = joined.s;
    const Joined twice{s, 2 * joined.k};
    for (std::size_t p = 0; p < s.pigments.size(); ++p) {
        auto& codes = m.load_codes.emplace_back(static_cast<std::size_t>(m.load_nx()) * m.load_ny());
        const auto& own = s.pigments[p];
        for (int j = 0; j < m.load_ny(); ++j)
            for (int i = 0; i < m.load_nx(); ++i) {
                const Block b = twice.block(i, j);
                if (s.passes.empty() && !own.may_be_in(b.j0, b.i0, b.i1) && !own.may_be_in(b.j1 - 1, b.i0, b.i1)) continue;
                codes[static_cast<std::size_t>(j) * m.load_nx() + i] =
                    load_code(static_cast<float>(b.mean([&](int x, int y) { return s.pigment_kg_m2(p, x, y); })));
            }
    }
}

} // namespace

Moment snapshot(const sheet::SheetState& s) {
    Joined joined{s, 1};
    const auto& g = s.geometry;
    while (static_cast<std::int64_t>(g.nx / joined.k) * (g.ny / joined.k) > most_cells) ++joined.k;
    Moment m;
    m.time_s = s.time_s, m.parts = all_parts, m.cell_m = g.cell_m * joined.k;
    m.nx = (g.nx + joined.k - 1) / joined.k, m.ny = (g.ny + joined.k - 1) / joined.k;
    const sheet::Look dried = sheet::look(s, sheet::LookAs::dried);
    take_picture(sheet::look(s, sheet::LookAs::as_now).picture, joined, m, m.now_rgb);
    take_picture(dried.picture, joined, m, m.dried_rgb);
    m.lstar_code.resize(static_cast<std::size_t>(m.nx) * m.ny);
    for (int j = 0; j < m.ny; ++j)
        for (int i = 0; i < m.nx; ++i)
            m.lstar_code[m.at(i, j)] = lstar_code(static_cast<float>(joined.block(i, j).mean([&](int x, int y) { return dried.lstar(x, y); })));
    take_water(joined, m);
    take_loads(joined, m);
    return m;
}

} // namespace tidemark::viewer
