#include "grid/tiles.h"

#include <algorithm>

namespace tidemark::grid {

TileSet::TileSet(int nx, int ny, bool awake)
    : nx_(nx), ny_(ny), tiles_x_((nx + size - 1) / size), tiles_y_((ny + size - 1) / size),
      awake_(static_cast<std::size_t>(tiles_x_) * tiles_y_, awake) {
    rebuild();
}

void TileSet::set_all(bool on) { std::fill(awake_.begin(), awake_.end(), static_cast<std::uint8_t>(on)); }

void TileSet::rebuild() {
    spans_.clear();
    first_.assign(tiles_y_ + 1, 0);
    cells_ = 0;
    for (int tj = 0; tj < tiles_y_; ++tj) {
        first_[tj] = static_cast<int>(spans_.size());
        const int rows = std::min(size, ny_ - tj * size);
        for (int ti = 0; ti < tiles_x_;) {
            if (!awake(ti, tj)) {
                ++ti;
                continue;
            }
            int end = ti;
            while (end < tiles_x_ && awake(end, tj)) ++end;
            spans_.push_back({ti * size, std::min(end * size, nx_)});
            cells_ += static_cast<std::int64_t>(rows) * (spans_.back().end - spans_.back().begin);
            ti = end;
        }
    }
    first_[tiles_y_] = static_cast<int>(spans_.size());
}

bool TileSet::covers(const TileSet& other) const {
    return std::equal(awake_.begin(), awake_.end(), other.awake_.begin(), other.awake_.end(),
                      [](std::uint8_t here, std::uint8_t there) { return here != 0 || there == 0; });
}

bool TileSet::beside_a_sleeper(int tile_i, int tile_j) const {
    for (int j = std::max(0, tile_j - 1); j <= std::min(tiles_y_ - 1, tile_j + 1); ++j)
        for (int i = std::max(0, tile_i - 1); i <= std::min(tiles_x_ - 1, tile_i + 1); ++i)
            if ((i != tile_i || j != tile_j) && !awake(i, j)) return true;
    return false;
}

} // namespace tidemark::grid
