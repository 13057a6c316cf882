/// Where a caption has room: a box that lies wholly inside one part of a picture.
#pragma once
#include <cstdint>
#include <optional>
#include <vector>

namespace tidemark::report {

struct CaptionSpot {
    int x = 0, y = 0; ///< top left pixel of the box
};

/// Parts are the numbers from 0 of `part`, width × height, row by row; what is negative belongs to none.
class CaptionRoom {
  public:
    CaptionRoom(std::vector<int> part, int width, int height, int parts);

    /// For each part the box whose middle is farthest from all other parts and the picture's border, of equal ones that
    /// nearest the part's own middle; none where no such box fits. Work goes with the number of pixels.
    std::vector<std::optional<CaptionSpot>> spots(int box_width, int box_height) const;

  private:
    struct Middle {
        double x = 0, y = 0;
    };
    std::vector<int> part_;
    int width_, height_;
    std::vector<std::int64_t> squared_; ///< to other parts
    std::vector<Middle> middle_;        ///< one a part
};

} // namespace tidemark::report
