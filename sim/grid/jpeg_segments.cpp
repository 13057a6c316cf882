#include <algorithm>

#include "grid/jpeg_segments_detail.h"

namespace tidemark::grid {

Bytes jpeg_segment(Bytes jpeg, std::uint8_t marker, std::string_view label) {
    std::size_t at = 2; // behind FF D8
    while (at + 4 <= jpeg.size() && jpeg[at] == 0xFF) {
        const std::uint8_t kind = jpeg[at + 1];
        if (kind == 0xFF) { // a fill byte
            ++at;
            continue;
        }
        if (kind == 0xDA || kind == 0xD9) break; // start of scan, end of image
        const std::size_t length = jpeg[at + 2] * 256u + jpeg[at + 3]; // counts its own two bytes
        if (length < 2 || length + 2 > jpeg.size() - at) break;
        const Bytes content = jpeg.subspan(at + 4, length - 2);
        const bool labelled = content.size() >= label.size() &&
                              std::equal(label.begin(), label.end(), content.begin(),
                                         [](char a, std::uint8_t b) { return static_cast<std::uint8_t>(a) == b; });
        if (kind == marker && labelled) return content.subspan(label.size());
        at += 2 + length;
    }
    return {};
}

} // namespace tidemark::grid
