#include "pigment/faces_detail.h"
#include "pigment/substance_detail.h"
#include "pigment/substep.h"
#include "pigment/through.h"
#include "pigment/transport_rows.h"

namespace tidemark::pigment {
namespace {

/// Columns [b, b + n) of a block.
struct Columns {
    const Piece& p;
    int b, n;
};

/// Whether any of substance k runs through cells of a block.
bool any_through(const Columns& at, const ThroughFlow& t, std::size_t k) {
    if (t.cells.empty())
        return false;
    for (int c = t.row_begin[at.p.top]; c < t.row_begin[at.p.bottom]; ++c)
        if (t.cells[c].i >= at.b && t.cells[c].i < at.b + at.n && t.lower[k][c] + t.upper[k][c] > 0)
            return true;
    return false;
}

bool any(const Columns& at, const Pair<const grid::Field<float>>& m) {
    for (int j = at.p.top; j < at.p.bottom; ++j)
        if (peak_row(at.n, m.lower.row(j) + at.b, m.upper.row(j) + at.b) > 0)
            return true;
    return false;
}

bool may_be_in(const sheet::SheetState& s, std::size_t k, int row, const Columns& at) {
    return k >= s.pigments.size() || s.pigments[k].may_be_in(row, at.b, at.b + at.n);
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
look_at(const Columns& at, const PigmentWorkspace& w, std::size_t k, const Pair<const grid::Field<float>>& m,
        EdgeRows& edge, bool through) {
    const int b = at.b, top = at.p.top, bottom = at.p.bottom, first = 4 * at.p.block.tile_row;
    const auto row = [&](int j, float* lower, float* upper) {
        return look_row(at.n, {w.up_share.row(j) + b, w.per_lower.row(j) + b, w.per_upper.row(j) + b},
                        m.lower.row(j) + b, m.upper.row(j) + b, lower, upper);
    };
    std::array<float, 4> peak;
    for (int e = 0; e < 4; ++e) {
        const int j = e < 2 ? top + e : bottom - 4 + e;
        float *lower = edge.lower.row(first + e) + b, *upper = edge.upper.row(first + e) + b;
        peak[e] = row(j, lower, upper);
        if (through)
            patch_through_flow(w, k, j, b, at.n, lower, upper);
    }
    if (through)
        return Filled::somewhere | Filled::top | Filled::bottom | Filled::left | Filled::right;
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

void look_at_water(const sheet::SheetState& s, PigmentWorkspace& w, int number, float dt_per_dx, float done) {
    const Piece p(s, w.blocks[number]);
    const int b = p.block.begin;
    auto& marked = w.marked[number];
    marked.clear();
    for (int j = p.top; j < p.bottom; ++j) {
        const Faces faces(p, j);
        const WaterRow row{w.per_lower.row(j) + b, w.per_upper.row(j) + b, w.out_m.row(j) + b, w.up_share.row(j) + b,
                           w.down_share.row(j) + b};
        if (!water_row(p.n, s.film_before_m.row(j) + b, faces.view(), dt_per_dx, done, row))
            continue;
        for (int i = 0; i < p.n; ++i)
            if (row.per_upper[i] == through_per_m)
                marked.emplace_back(j, b + i);
    }
}

void look(const sheet::SheetState& s, PigmentWorkspace& w, const Block& block) {
    const Piece p(s, block);
    for (std::size_t k = 0; k < w.edges.size(); ++k) {
        const auto m = pair_of(s, k);
        for (int b = block.begin; b < block.end; b += tile) {
            const Columns at{p, b, std::min(tile, block.end - b)};
            std::uint8_t& filled = w.filled_at(k, block.tile_row, b / tile);
            const bool through = any_through(at, w.through, k);
            if (through || (may_be_in(s, k, p.top, at) && any(at, m))) {
                filled = look_at(at, w, k, m, w.edges[k], through);
            } else {
                filled = 0;
                clear(at, w.edges[k]);
            }
        }
    }
}

} // namespace tidemark::pigment
