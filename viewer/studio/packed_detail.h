/// Bands of a moment's rows, packed. Private to the working half.
#pragma once
#include "viewer/studio/moment.h"

#include <memory>
#include <span>
#include <vector>

namespace tidemark::viewer {

constexpr int band_rows = 32;
constexpr int parts_count = 4;

/// The bytes of one part in rows [row, row + rows), as they lie in a moment: what is packed and compared. Of loads every
/// pigment, by rows of their own halved grid.
std::vector<std::uint8_t> band_bytes(const Moment&, int part, int band);
void put_band(Moment&, int part, int band, std::span<const std::uint8_t>);
int bands_of(const Moment&);
void make_room(Moment&, unsigned parts, std::size_t pigments); ///< sizes all vectors of these parts

/// zlib over differences of neighbouring bytes; `stride`: 3 in pictures.
class Packed {
  public:
    Packed(std::span<const std::uint8_t> raw, int stride);
    std::vector<std::uint8_t> raw() const;
    std::size_t bytes() const { return bytes_.size() + sizeof *this; }

  private:
    std::size_t size_;
    int stride_;
    std::vector<std::uint8_t> bytes_;
};

} // namespace tidemark::viewer
