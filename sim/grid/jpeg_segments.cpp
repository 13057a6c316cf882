#include <algorithm>

#include "grid/jpeg_segments_detail.h"

namespace tidemark::grid {

namespace {

/// f(marker, content) for each segment up to the first scan's header, which is the last; false from f ends the walk.
template <class F> void walk(Bytes jpeg, F&& f) {
    std::size_t at = 2; // behind FF D8
    while (at + 4 <= jpeg.size() && jpeg[at] == 0xFF) {
        const std::uint8_t kind = jpeg[at + 1];
        if (kind == 0xFF) { // a fill byte
            ++at;
            continue;
        }
        if (kind == 0xD9) break; // end of image
        const std::size_t length = jpeg[at + 2] * 256u + jpeg[at + 3]; // counts its own two bytes
        if (length < 2 || length + 2 > jpeg.size() - at) break;
        if (!f(kind, jpeg.subspan(at + 4, length - 2)) || kind == 0xDA) break;
        at += 2 + length;
    }
}

bool labelled(Bytes content, std::string_view label) {
    return content.size() >= label.size() &&
           std::equal(label.begin(), label.end(), content.begin(),
                      [](char a, std::uint8_t b) { return static_cast<std::uint8_t>(a) == b; });
}

/// The frame header's kinds: C0 ... CF without the tables C4, C8 and CC.
bool begins_frame(std::uint8_t kind) { return (kind & 0xF0) == 0xC0 && kind != 0xC4 && kind != 0xC8 && kind != 0xCC; }

} // namespace

Bytes jpeg_segment(Bytes jpeg, std::uint8_t marker, std::string_view label) {
    Bytes found;
    walk(jpeg, [&](std::uint8_t kind, Bytes content) {
        if (kind != marker || !labelled(content, label)) return true;
        found = content.subspan(label.size());
        return false;
    });
    return found;
}

std::vector<Bytes> jpeg_segments(Bytes jpeg, std::uint8_t marker, std::string_view label) {
    std::vector<Bytes> all;
    walk(jpeg, [&](std::uint8_t kind, Bytes content) {
        if (kind == marker && labelled(content, label)) all.push_back(content.subspan(label.size()));
        return true;
    });
    return all;
}

double samples_held(Bytes jpeg) {
    bool progressive = false;
    int components = 0, in_scan = 0, blocks = 0, widest = 1, highest = 1;
    walk(jpeg, [&](std::uint8_t kind, Bytes content) {
        if (kind == 0xDA && !content.empty()) in_scan = content[0];
        if (!begins_frame(kind) || components > 0 || content.size() < 6) return true;
        progressive = (kind & 3) == 2;
        components = content[5]; // behind precision, height, width; then three bytes each
        for (std::size_t at = 7; at < 6 + 3u * components && at < content.size(); at += 3) {
            const int across = content[at] >> 4, down = content[at] & 15;
            blocks += across * down;
            widest = std::max(widest, across), highest = std::max(highest, down);
        }
        return true;
    });
    return progressive || in_scan < components ? static_cast<double>(blocks) / (widest * highest) : 0;
}

} // namespace tidemark::grid
