/// Which 32 × 32 tiles of the sheet are awake, as spans of columns for each row.
///
/// Loops over cells go `for j: for span in tiles.spans(j): for i in span`, so that what sleeps costs nothing.
/// The order of rows and spans is fixed: sums taken per row and added in row order do not depend on threads.
#pragma once
#include <cstdint>
#include <span>
#include <vector>

namespace tidemark::grid {

struct Span {
    int begin = 0, end = 0; ///< columns [begin, end)
};

class TileSet {
  public:
    static constexpr int size = 32; ///< cells along a tile's side
    TileSet() = default;
    TileSet(int nx, int ny, bool awake = false);
    int tiles_x() const { return tiles_x_; }
    int tiles_y() const { return tiles_y_; }
    bool awake(int tile_i, int tile_j) const { return awake_[tile_j * tiles_x_ + tile_i] != 0; }
    bool beside_a_sleeper(int tile_i, int tile_j) const; ///< one that sleeps is beside this tile or across a corner
    void set(int tile_i, int tile_j, bool on) { awake_[tile_j * tiles_x_ + tile_i] = on; }
    void wake_cell(int i, int j) { set(i / size, j / size, true); }
    void set_all(bool on);
    void rebuild(); ///< call after set(): remakes the spans
    std::span<const Span> spans(int j) const {
        const int t = j / size;
        return {spans_.data() + first_[t], static_cast<std::size_t>(first_[t + 1] - first_[t])};
    }
    std::int64_t cells() const { return cells_; } ///< awake cells
    bool any() const { return cells_ > 0; }
    bool same_as(const TileSet& other) const { return awake_ == other.awake_; }
    bool covers(const TileSet& other) const; ///< whether all that is awake there, of the same size, is awake here
    int nx() const { return nx_; }
    int ny() const { return ny_; }
    template <class A, class Self> static void archive(A& a, Self& self) { ///< archive.h
        auto& [nx, ny, tiles_x, tiles_y, awake, spans, first, cells] = self;
        a(nx, ny, awake);
        if constexpr (A::reads) {
            constexpr int widest = 1 << 20;
            a.require(nx >= 0 && ny >= 0 && nx <= widest && ny <= widest);
            tiles_x = (nx + size - 1) / size, tiles_y = (ny + size - 1) / size;
            a.require(awake.size() == static_cast<std::size_t>(tiles_x) * tiles_y);
            self.rebuild();
        }
    }

  private:
    int nx_ = 0, ny_ = 0, tiles_x_ = 0, tiles_y_ = 0;
    std::vector<std::uint8_t> awake_;
    std::vector<Span> spans_;
    std::vector<int> first_{0}; ///< per tile row, first span
    std::int64_t cells_ = 0;
};

} // namespace tidemark::grid
