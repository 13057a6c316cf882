/// How far it is inside a mask: along the shortest way that never leaves it.
///
///   grid::Geodesic inside(nx, ny, [&](int i, int j) { return mask(i, j) > 0; });
///   std::vector<grid::Cell> nearest_first = inside.spread({{start}});
///   inside.distance(cell), inside.before(cell)
///
/// Ways are chains of hops to the 16 cells around (a side, a corner, a knight's move), which makes lengths even in all
/// directions to 2.7 %, never too short. A knight's move has to pass over a cell of the mask. Distances in cells.
///
/// Dijkstra's rule, with buckets one cell wide for a queue: no hop is shorter, so all that lie in the lowest bucket are
/// final (Dial 1969, Commun. ACM 12, 632). Work goes with the number of cells. Order and ways depend on the mask and the
/// starts alone: of equal distances the cell that comes first reading from the top left is taken first.
#pragma once
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

namespace tidemark::grid {

struct Cell {
    int i = 0, j = 0;
    bool operator==(const Cell&) const = default;
};

class Geodesic {
  public:
    static constexpr float unreached = std::numeric_limits<float>::infinity();

    template <class In> Geodesic(int nx, int ny, In&& in) : Geodesic(nx, ny) {
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i)
                state_[at({i, j})] = in(i, j) ? State::open : State::closed;
    }

    /// Outwards from `starts` (these need not be in the mask), no farther than `farthest`. What an earlier spread has
    /// reached stays as it is and is not entered again. Returns what was reached, nearest first.
    std::vector<Cell> spread(std::span<const Cell> starts, float farthest = unreached);

    float distance(const Cell& c) const { return distance_[at(c)]; }
    bool reached(const Cell& c) const { return state_[at(c)] == State::reached; }
    /// The cell that the way to `c` comes from; a start is its own. Only of what was reached.
    Cell before(const Cell& c) const {
        const std::size_t from = at(c) - static_cast<std::size_t>(hop_[hop_of_[at(c)]]);
        return {static_cast<int>(from % stride_) - margin, static_cast<int>(from / stride_) - margin};
    }
    /// Calls see(to, length) for every cell that one hop leads to from `c`, whether it lies in the mask or not.
    template <class See> void hops_from(const Cell& c, See&& see) const {
        for (int h = 0; h < hops; ++h)
            if (h < straight || state_[at(c) + over_[h]] != State::closed)
                if (const Cell to{c.i + step[h].i, c.j + step[h].j}; to.i >= 0 && to.j >= 0 && to.i < nx_ && to.j < ny_)
                    see(to, length[h]);
    }

  private:
    enum class State : std::uint8_t { closed, open, reached };
    static constexpr int hops = 16, straight = 8, margin = 2, stay = hops;
    static constexpr Cell step[hops] = {{1, 0},  {-1, 0}, {0, 1},  {0, -1},  {1, 1}, {1, -1}, {-1, 1}, {-1, -1},
                                        {2, 1},  {2, -1}, {-2, 1}, {-2, -1}, {1, 2}, {1, -2}, {-1, 2}, {-1, -2}};
    static constexpr float corner = 1.4142136f, knight = 2.2360680f;
    static constexpr float length[hops] = {1,      1,      1,      1,      corner, corner, corner, corner,
                                           knight, knight, knight, knight, knight, knight, knight, knight};
    std::size_t stride_ = 0;
    int nx_ = 0, ny_ = 0;
    std::vector<State> state_;          ///< with a closed margin: a hop never leaves the field
    std::vector<float> distance_;
    std::vector<std::uint8_t> hop_of_;  ///< that led there
    std::ptrdiff_t hop_[hops + 1] = {}; ///< in places of the field; the last one stays
    std::ptrdiff_t over_[hops] = {};    ///< the place that a knight's move passes over

    Geodesic(int nx, int ny);
    std::size_t at(const Cell& c) const { return (c.j + margin) * stride_ + static_cast<std::size_t>(c.i + margin); }
};

} // namespace tidemark::grid
