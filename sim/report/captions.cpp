#include "report/captions_detail.h"

#include "reference/inscribed.h"

#include <algorithm>
#include <utility>

namespace tidemark::report {

CaptionRoom::CaptionRoom(std::vector<int> part, int width, int height, int parts)
    : part_(std::move(part)), width_(width), height_(height),
      squared_(reference::squared_to_others(part_, width, height)), middle_(parts) {
    std::vector<std::int64_t> pixels(parts);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            if (const int k = part_[static_cast<std::size_t>(y) * width + x]; k >= 0)
                ++pixels[k], middle_[k].x += x, middle_[k].y += y;
    for (int k = 0; k < parts; ++k)
        if (pixels[k] > 0)
            middle_[k].x /= static_cast<double>(pixels[k]), middle_[k].y /= static_cast<double>(pixels[k]);
}

std::vector<std::optional<CaptionSpot>> CaptionRoom::spots(int box_width, int box_height) const {
    struct Best {
        std::int64_t squared = -1;
        double off = 0; ///< squared, from the middle of the part
    };
    std::vector<Best> best(middle_.size());
    std::vector<std::optional<CaptionSpot>> out(middle_.size());
    // How many rows above and here hold as many pixels of one part, the last of them in this column.
    std::vector<int> rows(width_, 0);
    for (int y = 0; y < height_; ++y) {
        const std::size_t row = static_cast<std::size_t>(y) * width_;
        for (int x = 0, run = 0; x < width_; ++x) {
            const int k = part_[row + x];
            run = x > 0 && part_[row + x - 1] == k ? run + 1 : 1;
            const bool goes_on = y > 0 && part_[row + x - width_] == k;
            rows[x] = k < 0 || run < box_width ? 0 : goes_on ? rows[x] + 1 : 1;
            if (rows[x] < box_height)
                continue;
            const int left = x - box_width + 1, top = y - box_height + 1;
            const int across = left + box_width / 2, down = top + box_height / 2;
            const std::int64_t squared = squared_[static_cast<std::size_t>(down) * width_ + across];
            const double dx = across - middle_[k].x, dy = down - middle_[k].y, off = dx * dx + dy * dy;
            Best& b = best[k];
            if (squared > b.squared || (squared == b.squared && off < b.off))
                b = {squared, off}, out[k] = CaptionSpot{left, top};
        }
    }
    return out;
}

} // namespace tidemark::report
