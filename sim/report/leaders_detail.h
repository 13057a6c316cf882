/// Where a number can stand beside the part it belongs to, when it has no room inside: near it, with a line to it.
#pragma once
#include "report/captions_detail.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace tidemark::report {

struct Box {
    int x = 0, y = 0, width = 0, height = 0; ///< top left pixel
};

/// Parts are the numbers of `part`, width × height, row by row.
class FreeRoom {
  public:
    FreeRoom(const std::vector<int>& part, int width, int height);

    /// Nothing else goes there, no line either.
    void take(const Box&);
    /// A line from (x, y) to the box's nearest point, and the box, are taken.
    void take_with_line(int x, int y, const Box&);

    /// The nearest box, at most `reach` pixels away, that is free, lies wholly inside one part, whichever, and to which a
    /// free line leads from (x, y).
    std::optional<Box> near(int x, int y, int box_width, int box_height, int reach) const;

  private:
    bool taken(int x, int y) const { return taken_[static_cast<std::size_t>(y) * width_ + x] != 0; }
    bool is_free(const Box&) const;
    bool line_is_free(int x, int y, const Box&) const;

    int width_, height_;
    std::vector<std::int32_t> outlines_; ///< pixels on outlines above and left of a corner; (width + 1) × (height + 1)
    std::vector<std::uint8_t> taken_;
};

/// Of a box, the pixel nearest to (x, y).
CaptionSpot nearest_in(const Box&, int x, int y);

} // namespace tidemark::report
