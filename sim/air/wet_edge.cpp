#include "air/wet_edge_detail.h"
#include "grid/rows.h"

#include <algorithm>

namespace tidemark::air {
namespace {

std::int64_t count(const std::uint8_t* wet, int n) {
    std::int64_t sum = 0;
    for (int i = 0; i < n; ++i)
        sum += wet[i];
    return sum;
}

// Without branches, so that the loops become vector code.
TIDEMARK_CLONES void wet_cells(int n,
                               const float* __restrict film,
                               const double* __restrict front,
                               double wet_front,
                               std::uint8_t* __restrict wet) {
    for (int i = 0; i < n; ++i)
        wet[i] = (film[i] > 0) | (front[i] >= wet_front);
}

constexpr int stretch_cells = 128;

struct Changed {
    int both = 0, only_now = 0; ///< cells wet then and now; wet now only
};

Changed compare(const SidewaysVapour& a, const sheet::SheetState& s, double wet_front, int j) {
    alignas(64) std::uint8_t now[stretch_cells];
    Changed sum;
    for (const grid::Span span : s.damp_tiles.spans(j)) {
        const int end = std::min(span.end, s.geometry.nx);
        for (int begin = span.begin; begin < end; begin += stretch_cells) {
            const int n = std::min(stretch_cells, end - begin);
            const std::uint8_t* then = a.wet.row(j) + begin;
            wet_cells(n, s.film_m.row(j) + begin, s.front_kg_m2.row(j) + begin, wet_front, now);
            int both = 0, wet = 0;
            for (int i = 0; i < n; ++i)
                both += now[i] & then[i], wet += now[i];
            sum.both += both, sum.only_now += wet - both;
        }
    }
    return sum;
}

/// best = min(best, across² + dy²); returns the largest of best.
TIDEMARK_CLONES std::int32_t lower(const std::int32_t* __restrict up,
                                   const std::int32_t* __restrict down,
                                   int n,
                                   std::int32_t dy2,
                                   std::int32_t* __restrict best) {
    std::int32_t largest = 0;
    for (int i = 0; i < n; ++i) {
        const std::int32_t nearer = (up[i] < down[i] ? up[i] : down[i]) + dy2;
        best[i] = best[i] < nearer ? best[i] : nearer;
        largest = largest > best[i] ? largest : best[i];
    }
    return largest;
}

} // namespace

void mark_wet(SidewaysVapour& a, const sheet::SheetState& s, double wet_front) {
    const sheet::Geometry& g = s.geometry;
    // Counts are whole numbers: their sum does not depend on the order.
    a.wet_cells = static_cast<std::int64_t>(grid::sum_rows(g.ny, s.damp_tiles.cells(), [&](int j) {
        std::uint8_t* wet = a.wet.row(j);
        std::fill_n(wet, g.nx, std::uint8_t{0});
        for (const grid::Span span : s.damp_tiles.spans(j))
            wet_cells(std::min(span.end, g.nx) - span.begin, s.film_m.row(j) + span.begin,
                      s.front_kg_m2.row(j) + span.begin, wet_front, wet + span.begin);
        return static_cast<double>(count(wet, g.nx));
    }));
}

double changed_share(const SidewaysVapour& a, const sheet::SheetState& s, double wet_front) {
    const sheet::Geometry& g = s.geometry;
    std::vector<double> kept(g.ny);
    const double fresh = grid::sum_rows(g.ny, s.damp_tiles.cells(), [&](int j) {
        const Changed row = compare(a, s, wet_front, j);
        kept[j] = row.both;
        return static_cast<double>(row.only_now);
    });
    double stay = 0;
    for (double k : kept)
        stay += k;
    const double gone = static_cast<double>(a.wet_cells) - stay, all = stay + fresh + gone;
    return all > 0 ? (fresh + gone) / all : 0;
}

void distance_across(SidewaysVapour& a, const sheet::Geometry& g) {
    const std::int32_t most = a.reach + 1;
    grid::for_rows(g.ny, static_cast<long>(g.nx) * g.ny, [&](int j) {
        const std::uint8_t* wet = a.wet.row(j);
        std::int32_t* d = a.across2.row(j);
        std::int32_t run = 0;
        for (int i = 0; i < g.nx; ++i)
            d[i] = run = wet[i] ? run + 1 : 0;
        run = 0;
        for (int i = g.nx - 1; i >= 0; --i) {
            run = wet[i] ? run + 1 : 0;
            const std::int32_t nearest = std::min({d[i], run, most});
            d[i] = nearest * nearest;
        }
        for (int i = 0; i < g.nx; i += grid::TileSet::size)
            a.least2(i / grid::TileSet::size, j) =
                *std::min_element(d + i, d + std::min(i + grid::TileSet::size, g.nx));
    });
}

void distance2_to_dry(
    const SidewaysVapour& a, const sheet::Geometry& g, int j, int begin, int end, std::int32_t* d2) {
    static constexpr std::int32_t beyond[grid::TileSet::size] = {}; // off the sheet: dry
    std::copy(a.across2.row(j) + begin, a.across2.row(j) + end, d2);
    const int tile = begin / grid::TileSet::size;
    std::int32_t largest = (a.reach + 1) * (a.reach + 1);
    for (int dy = 1; dy <= a.reach && dy * dy < largest; ++dy) {
        const bool above = j - dy >= 0, below = j + dy < g.ny;
        const std::int32_t least = std::min(above ? a.least2(tile, j - dy) : 0, below ? a.least2(tile, j + dy) : 0);
        if (least + dy * dy >= largest) // in the middle of a wash: nothing nearer in these two rows
            continue;
        const std::int32_t* up = above ? a.across2.row(j - dy) + begin : beyond;
        const std::int32_t* down = below ? a.across2.row(j + dy) + begin : beyond;
        largest = lower(up, down, end - begin, dy * dy, d2);
    }
}

} // namespace tidemark::air
