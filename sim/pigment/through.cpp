#include "pigment/through.h"

#include "grid/rows.h"
#include "pigment/faces_detail.h"
#include "pigment/substance_detail.h"
#include "pigment/transport.h"
#include "pigment/transport_rows.h"

#include <algorithm>

namespace tidemark::pigment {
namespace {

constexpr int most_sweeps_round_rings = 200;
constexpr float settled = 1e-5f; // change of a concentration in a sweep
constexpr float less = 1 - 0x1p-22f; // faces round to 2^-24 of what passes

/// Into a cell (positive) through its four faces; those to sleeping tiles and off the sheet are closed.
class Inflow {
  public:
    Inflow(const sheet::SheetState& s, float dt_per_dx) : s_(s), k_(dt_per_dx) {}
    std::array<ThroughFlow::Source, 4> into(int i, int j) const {
        return {side(i - 1, j, s_.flux_x_m2_s(i - 1, j)), side(i + 1, j, -s_.flux_x_m2_s(i, j)),
                side(i, j - 1, s_.flux_y_m2_s(i, j - 1)), side(i, j + 1, -s_.flux_y_m2_s(i, j))};
    }

  private:
    ThroughFlow::Source side(int i, int j, float flux) const {
        const bool open = i >= 0 && j >= 0 && i < s_.film_m.nx() && j < s_.film_m.ny() &&
                          s_.film_tiles.awake(i / tile, j / tile);
        return {i, j, -1, open ? k_ * flux : 0.0f};
    }
    const sheet::SheetState& s_;
    float k_;
};

ThroughFlow::Cell cell_at(const Inflow& inflow, const sheet::SheetState& s, int i, int j, float done) {
    ThroughFlow::Cell cell{.i = i, .j = j};
    float in = 0, out = 0;
    for (const ThroughFlow::Source& from : inflow.into(i, j))
        if (from.water_m > 0)
            in += from.water_m, cell.from[cell.sources++] = from;
        else
            out -= from.water_m;
    // The same sums as water_row's, up to rounding.
    const float half = std::max(0.0f, 0.5f * (s.film_before_m(i, j) - done * (out - in)));
    const float rise = std::min(half_excess * std::max(out - in, 0.0f), half);
    cell.in_m = in, cell.out_m = out, cell.lower_m = half - rise, cell.upper_m = half + rise;
    return cell;
}

/// Collects what the blocks marked, by row and column.
void collect(const sheet::SheetState& s, PigmentWorkspace& w, float dt_per_dx, float done) {
    ThroughFlow& t = w.through;
    std::vector<std::pair<int, int>> places;
    for (const auto& marked : w.marked)
        places.insert(places.end(), marked.begin(), marked.end());
    std::sort(places.begin(), places.end());
    t.cells.clear();
    t.row_begin.assign(s.film_m.ny() + 1, 0);
    const Inflow inflow(s, dt_per_dx);
    for (const auto& [j, i] : places) {
        t.cells.push_back(cell_at(inflow, s, i, j, done));
        ++t.row_begin[j + 1];
    }
    for (std::size_t j = 1; j < t.row_begin.size(); ++j)
        t.row_begin[j] += t.row_begin[j - 1];
}

int find(const ThroughFlow& t, int i, int j) {
    const auto begin = t.cells.begin() + t.row_begin[j], end = t.cells.begin() + t.row_begin[j + 1];
    const auto at = std::lower_bound(begin, end, i, [](const ThroughFlow::Cell& c, int column) { return c.i < column; });
    return at != end && at->i == i ? static_cast<int>(at - t.cells.begin()) : -1;
}

/// A cell of a ring that feeds `cell`: up the stream through cells that wait, until one comes round again.
int in_a_ring(const ThroughFlow& t, const std::vector<int>& waits, int cell) {
    std::vector<bool> passed(t.cells.size(), false);
    while (!passed[cell]) {
        passed[cell] = true;
        for (int f = 0; f < t.cells[cell].sources; ++f)
            if (const int from = t.cells[cell].from[f].cell; from >= 0 && waits[from] > 0) {
                cell = from;
                break;
            }
    }
    return cell;
}

/// Kahn's (1962) order: a cell comes when all that feed it have come. When none is left to come, the water runs in a
/// ring, and a cell of it comes.
void put_in_order(ThroughFlow& t) {
    const int n = static_cast<int>(t.cells.size());
    std::vector<int> waits(n, 0);
    std::vector<std::array<int, 4>> feeds(n, {-1, -1, -1, -1});
    for (int k = 0; k < n; ++k)
        for (int f = 0; f < t.cells[k].sources; ++f) {
            auto& from = t.cells[k].from[f];
            from.cell = find(t, from.i, from.j);
            if (from.cell < 0)
                continue;
            ++waits[k];
            *std::find(feeds[from.cell].begin(), feeds[from.cell].end(), -1) = k;
        }
    t.order.clear();
    t.rings = false;
    const auto come = [&](int k) { t.order.push_back(k), waits[k] = -1; };
    for (int k = 0; k < n; ++k)
        if (waits[k] == 0)
            come(k);
    for (int next = 0, stuck = 0; next < n; ++next) {
        if (next == static_cast<int>(t.order.size())) {
            while (waits[stuck] < 0)
                ++stuck;
            t.rings = true;
            come(in_a_ring(t, waits, stuck));
        }
        for (const int fed : feeds[t.order[next]])
            if (fed >= 0 && waits[fed] > 0 && --waits[fed] == 0)
                come(fed);
    }
}

/// What leaves the lower and the upper half.
struct Leaving {
    float lower = 0, upper = 0;
};

Leaving of_cell(const PigmentWorkspace& w, const Pair<const grid::Field<float>>& m, int i, int j) {
    Leaving c;
    const RiseRow rise{w.up_share.row(j) + i, w.per_lower.row(j) + i, w.per_upper.row(j) + i};
    look_row(1, rise, m.lower.row(j) + i, m.upper.row(j) + i, &c.lower, &c.upper);
    return c;
}

/// What leaves a cell by what leaves those that feed it.
Leaving leaves(const PigmentWorkspace& w, std::size_t k, const Pair<const grid::Field<float>>& m, int at) {
    const ThroughFlow& t = w.through;
    const ThroughFlow::Cell& cell = t.cells[at];
    const float risen = w.up_share(cell.i, cell.j) * m.lower(cell.i, cell.j);
    float lower = m.lower(cell.i, cell.j) - risen, upper = m.upper(cell.i, cell.j) + risen;
    for (int f = 0; f < cell.sources; ++f) {
        const ThroughFlow::Source& from = cell.from[f];
        const Leaving c = from.cell >= 0 ? Leaving{t.lower[k][from.cell], t.upper[k][from.cell]}
                                         : of_cell(w, m, from.i, from.j);
        lower += lower_share * from.water_m * c.lower, upper += upper_share * from.water_m * c.upper;
    }
    // A little less, so that rounding does not let it give more than it has.
    lower *= less, upper *= less;
    return {lower / std::max(cell.lower_m + lower_share * cell.in_m, lower_share * cell.out_m),
            upper / std::max(cell.upper_m + upper_share * cell.in_m, upper_share * cell.out_m)};
}

/// From nothing upwards, so that no cell gives what has not reached it: in rings too what is left is never negative.
void leave(const PigmentWorkspace& w, ThroughFlow& t, std::size_t k, const Pair<const grid::Field<float>>& m) {
    t.lower[k].assign(t.cells.size(), 0.0f), t.upper[k].assign(t.cells.size(), 0.0f);
    bool changes = true;
    for (int sweep = 0; changes && sweep < (t.rings ? most_sweeps_round_rings : 1); ++sweep) {
        changes = false;
        for (const int at : t.order) {
            const Leaving c = leaves(w, k, m, at);
            changes = changes || c.lower > (1 + settled) * t.lower[k][at] || c.upper > (1 + settled) * t.upper[k][at];
            t.lower[k][at] = c.lower, t.upper[k][at] = c.upper;
        }
    }
}

} // namespace

void find_through_flow(const sheet::SheetState& s, PigmentWorkspace& w, float dt_per_dx, float done) {
    ThroughFlow& t = w.through;
    collect(s, w, dt_per_dx, done);
    if (t.cells.empty())
        return;
    put_in_order(t);
    const int n = static_cast<int>(w.edges.size());
    t.lower.resize(n), t.upper.resize(n);
    grid::for_rows(n, static_cast<long>(t.cells.size()) * n * 16, [&](int k) { leave(w, t, k, pair_of(s, k)); });
}

void patch_through_flow(const PigmentWorkspace& w, std::size_t k, int j, int b, int n, float* c_lower, float* c_upper) {
    const ThroughFlow& t = w.through;
    if (t.cells.empty())
        return;
    for (int at = t.row_begin[j]; at < t.row_begin[j + 1]; ++at) {
        const int column = t.cells[at].i - b;
        if (column >= 0 && column < n)
            c_lower[column] = t.lower[k][at], c_upper[column] = t.upper[k][at];
    }
}

} // namespace tidemark::pigment
