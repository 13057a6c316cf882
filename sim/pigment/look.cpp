#include "pigment/faces_detail.h"
#include "pigment/substance_detail.h"
#include "pigment/substep.h"
#include "pigment/transport_rows.h"

namespace tidemark::pigment {
namespace {

void look_at_water(const sheet::SheetState& s, PigmentWorkspace& w, const Piece& p, float dt_per_dx, float done) {
    const int b = p.block.begin;
    for (int j = p.top; j < p.bottom; ++j) {
        const Faces faces(p, j);
        water_row(p.n, s.film_before_m.row(j) + b, faces.view(), dt_per_dx, done,
                  {w.per_lower.row(j) + b, w.per_upper.row(j) + b, w.out_m.row(j) + b, w.up_share.row(j) + b,
                   w.down_share.row(j) + b});
    }
}

/// Columns [b, b + n) of a block.
struct Columns {
    const Piece& p;
    int b, n;
};

bool any(const Columns& at, const Pair<const grid::Field<float>>& m) {
    for (int j = at.p.top; j < at.p.bottom; ++j)
        if (peak_row(at.n, m.lower.row(j) + at.b, m.upper.row(j) + at.b) > 0)
            return true;
    return false;
}

/// Whether one column of a block holds any.
bool any_along(const Piece& p, int column, const Pair<const grid::Field<float>>& m) {
    for (int j = p.top; j < p.bottom; ++j)
        if (m.lower(column, j) + m.upper(column, j) > 0)
            return true;
    return false;
}

/// Writes the edge rows; returns where there is any concentration (along the sides: mass).
std::uint8_t
look_at(const Columns& at, const PigmentWorkspace& w, const Pair<const grid::Field<float>>& m, EdgeRows& edge) {
    const int b = at.b, top = at.p.top, bottom = at.p.bottom, first = 4 * at.p.block.tile_row;
    const auto row = [&](int j, float* lower, float* upper) {
        return look_row(at.n, {w.up_share.row(j) + b, w.per_lower.row(j) + b, w.per_upper.row(j) + b},
                        m.lower.row(j) + b, m.upper.row(j) + b, lower, upper);
    };
    std::array<float, 4> peak;
    for (int e = 0; e < 4; ++e)
        peak[e] = row(e < 2 ? top + e : bottom - 4 + e, edge.lower.row(first + e) + b, edge.upper.row(first + e) + b);
    bool here = *std::max_element(peak.begin(), peak.end()) > 0;
    std::array<float, tile> c_lower, c_upper;
    for (int j = top + 2; j < bottom - 2 && !here; ++j)
        here = row(j, c_lower.data(), c_upper.data()) > 0;
    if (!here)
        return 0;
    return static_cast<std::uint8_t>(Filled::somewhere | (peak[0] > 0 ? Filled::top : 0) |
                                     (peak[3] > 0 ? Filled::bottom : 0) | (any_along(at.p, b, m) ? Filled::left : 0) |
                                     (any_along(at.p, b + at.n - 1, m) ? Filled::right : 0));
}

void clear(const Columns& at, EdgeRows& edge) {
    for (int e = 4 * at.p.block.tile_row; e < 4 * at.p.block.tile_row + 4; ++e)
        std::fill_n(edge.lower.row(e) + at.b, at.n, 0.0f), std::fill_n(edge.upper.row(e) + at.b, at.n, 0.0f);
}

} // namespace

void look(const sheet::SheetState& s, PigmentWorkspace& w, const Block& block, float dt_per_dx, float done) {
    const Piece p(s, block);
    look_at_water(s, w, p, dt_per_dx, done);
    for (std::size_t k = 0; k < w.edges.size(); ++k) {
        const auto m = pair_of(s, k);
        for (int b = block.begin; b < block.end; b += tile) {
            const Columns at{p, b, std::min(tile, block.end - b)};
            std::uint8_t& filled = w.filled_at(k, block.tile_row, b / tile);
            if (any(at, m)) {
                filled = look_at(at, w, m, w.edges[k]);
            } else {
                filled = 0;
                clear(at, w.edges[k]);
            }
        }
    }
}

} // namespace tidemark::pigment
