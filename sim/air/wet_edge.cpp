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

void wet_row(const float* film, const double* front, int begin, int end, double wet_front, std::uint8_t* wet) {
    for (int i = begin; i < end; ++i)
        wet[i] = film[i] > 0 || front[i] >= wet_front;
}

/// best = min(best, across² + dy²); returns whether any is still above dy².
TIDEMARK_CLONES bool lower(const std::int32_t* __restrict up,
                           const std::int32_t* __restrict down,
                           int n,
                           std::int32_t dy2,
                           std::int32_t* __restrict best) {
    int above = 0;
    for (int i = 0; i < n; ++i) {
        const std::int32_t nearer = (up[i] < down[i] ? up[i] : down[i]) + dy2;
        best[i] = best[i] < nearer ? best[i] : nearer;
        above |= best[i] > dy2;
    }
    return above != 0;
}

} // namespace

void mark_wet(SidewaysVapour& a, const sheet::SheetState& s, double wet_front) {
    const sheet::Geometry& g = s.geometry;
    a.wet.fill(0);
    grid::for_rows(g.ny, s.damp_tiles.cells(), [&](int j) {
        for (const grid::Span span : s.damp_tiles.spans(j))
            wet_row(s.film_m.row(j), s.front_kg_m2.row(j), span.begin, std::min(span.end, g.nx), wet_front,
                    a.wet.row(j));
    });
    a.wet_cells = 0;
    for (int j = 0; j < g.ny; ++j)
        a.wet_cells += count(a.wet.row(j), g.nx);
}

double changed_share(const SidewaysVapour& a, const sheet::SheetState& s, double wet_front) {
    const sheet::Geometry& g = s.geometry;
    double stay = 0, fresh = 0; // wet then and now; wet now only
    std::vector<double> kept(g.ny);
    fresh = grid::sum_rows(g.ny, s.damp_tiles.cells(), [&](int j) {
        const float* film = s.film_m.row(j);
        const double* front = s.front_kg_m2.row(j);
        const std::uint8_t* then = a.wet.row(j);
        int both = 0, only = 0;
        for (const grid::Span span : s.damp_tiles.spans(j))
            for (int i = span.begin; i < std::min(span.end, g.nx); ++i) {
                const int now = film[i] > 0 || front[i] >= wet_front;
                both += now & then[i], only += now & (then[i] ^ 1);
            }
        kept[j] = both;
        return static_cast<double>(only);
    });
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
    });
}

void distance2_to_dry(
    const SidewaysVapour& a, const sheet::Geometry& g, int j, int begin, int end, std::int32_t* d2) {
    static constexpr std::int32_t beyond[grid::TileSet::size] = {}; // off the sheet: dry
    std::copy(a.across2.row(j) + begin, a.across2.row(j) + end, d2);
    for (int dy = 1; dy <= a.reach; ++dy) {
        const std::int32_t* up = j - dy >= 0 ? a.across2.row(j - dy) + begin : beyond;
        const std::int32_t* down = j + dy < g.ny ? a.across2.row(j + dy) + begin : beyond;
        if (!lower(up, down, end - begin, dy * dy, d2))
            break;
    }
}

} // namespace tidemark::air
