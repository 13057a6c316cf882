#include <algorithm>
#include <cmath>

#include "air/wet_edge_detail.h"
#include "grid/rows.h"

namespace tidemark::air {
namespace {

std::int64_t count(const std::uint8_t* wet, int n) {
    std::int64_t sum = 0;
    for (int i = 0; i < n; ++i) sum += wet[i];
    return sum;
}

void wet_row(const float* film, const double* front, int begin, int end, double wet_front, std::uint8_t* wet) {
    for (int i = begin; i < end; ++i) wet[i] = film[i] > 0 || front[i] >= wet_front;
}

/// best = min(best, across² + dy²) for one tile's width
void lower(const float* across, int begin, int end, float dy2, float* best) {
    for (int i = begin; i < end; ++i) best[i] = std::min(best[i], across[i] * across[i] + dy2);
}

} // namespace

void mark_wet(SidewaysVapour& a, const sheet::SheetState& s, double wet_front) {
    const sheet::Geometry& g = s.geometry;
    a.wet.fill(0);
    grid::for_rows(g.ny, s.damp_tiles.cells(), [&](int j) {
        for (const grid::Span span : s.damp_tiles.spans(j))
            wet_row(s.film_m.row(j), s.front_kg_m2.row(j), span.begin, std::min(span.end, g.nx), wet_front, a.wet.row(j));
    });
    a.wet_cells = 0;
    for (int j = 0; j < g.ny; ++j) a.wet_cells += count(a.wet.row(j), g.nx);
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
    for (double k : kept) stay += k;
    const double gone = static_cast<double>(a.wet_cells) - stay, all = stay + fresh + gone;
    return all > 0 ? (fresh + gone) / all : 0;
}

void distance_across(SidewaysVapour& a, const sheet::Geometry& g) {
    grid::for_rows(g.ny, static_cast<long>(g.nx) * g.ny, [&](int j) {
        const std::uint8_t* wet = a.wet.row(j);
        float* d = a.across.row(j);
        float run = 0;
        for (int i = 0; i < g.nx; ++i) d[i] = run = wet[i] ? run + 1 : 0;
        run = 0;
        for (int i = g.nx - 1; i >= 0; --i) {
            run = wet[i] ? run + 1 : 0;
            d[i] = std::min(d[i], run);
        }
    });
}

void distance_to_dry(const SidewaysVapour& a, const sheet::Geometry& g, int j, float* distance) {
    constexpr int width = grid::TileSet::size;
    for (int begin = 0; begin < g.nx; begin += width) {
        const int end = std::min(begin + width, g.nx);
        const float most = (static_cast<float>(a.reach) + 0.5f) * (static_cast<float>(a.reach) + 0.5f);
        for (int i = begin; i < end; ++i) distance[i] = std::min(a.across(i, j) * a.across(i, j), most);
        for (int dy = 1; dy <= a.reach; ++dy) {
            const float dy2 = static_cast<float>(dy * dy);
            if (dy2 >= *std::max_element(distance + begin, distance + end)) break;
            for (const int row : {j - dy, j + dy}) {
                if (row >= 0 && row < g.ny) {
                    lower(a.across.row(row), begin, end, dy2, distance);
                } else {
                    for (int i = begin; i < end; ++i) distance[i] = std::min(distance[i], dy2);
                }
            }
        }
        for (int i = begin; i < end; ++i) distance[i] = std::sqrt(distance[i]);
    }
}

} // namespace tidemark::air
