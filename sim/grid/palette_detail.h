/// The few colours that stand for all those of some pictures.
///
/// All colours begin in one box; the box whose colours lie farthest from their mean (sum of squares along one of red,
/// green, blue, each pixel counted) is cut at that mean, until there are enough boxes (Wan, Prusinkiewicz & Wong 1990,
/// from memory; departs: the cut lies at the mean). A box is shown as its mean. Work goes with the pixels, and with the
/// number of different colours times its logarithm.
#pragma once
#include "grid/picture.h"

#include <array>
#include <cstdint>
#include <vector>

namespace tidemark::grid {

using Rgb = std::array<std::uint8_t, 3>;

class Palette {
  public:
    /// `most` 1 ... 256 colours; the pictures hold one pixel at least.
    Palette(const std::vector<const Picture*>& pictures, int most);
    const std::vector<Rgb>& colours() const { return colours_; }
    /// Of a colour that the pictures hold.
    std::uint8_t index_of(const std::uint8_t* rgb) const;

  private:
    std::vector<Rgb> colours_;
    std::vector<std::uint32_t> codes_; ///< all colours of the pictures, rising
    std::vector<std::uint8_t> index_;  ///< for each of them
};

} // namespace tidemark::grid
