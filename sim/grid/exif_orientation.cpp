#include <string_view>
#include <utility>

#include "grid/jpeg_segments_detail.h"

namespace tidemark::grid {

namespace {

/// Numbers of a TIFF header's byte order. `has` before every read: offsets in the file are claims.
struct Tiff {
    Bytes bytes;
    bool little = false;
    bool has(std::size_t at, std::size_t count) const { return at <= bytes.size() && count <= bytes.size() - at; }
    std::uint32_t u16(std::size_t at) const {
        return little ? bytes[at] | bytes[at + 1] << 8 : bytes[at] << 8 | bytes[at + 1];
    }
    std::uint32_t u32(std::size_t at) const {
        return little ? u16(at) | u16(at + 2) << 16 : u16(at) << 16 | u16(at + 2);
    }
};

} // namespace

int exif_orientation(Bytes jpeg) {
    using namespace std::string_view_literals;
    Tiff tiff{jpeg_segment(jpeg, 0xE1, "Exif\0\0"sv)};
    if (!tiff.has(0, 8)) return 1;
    tiff.little = tiff.bytes[0] == 'I';
    if (tiff.bytes[0] != tiff.bytes[1] || (!tiff.little && tiff.bytes[0] != 'M') || tiff.u16(2) != 42) return 1;
    const std::size_t directory = tiff.u32(4);
    if (!tiff.has(directory, 2)) return 1;
    const std::size_t entries = tiff.u16(directory);
    for (std::size_t k = 0; k < entries; ++k) {
        const std::size_t entry = directory + 2 + 12 * k; // tag, type, count, value
        if (!tiff.has(entry, 12)) return 1;
        if (tiff.u16(entry) != 0x0112) continue;
        if (tiff.u16(entry + 2) != 3 || tiff.u32(entry + 4) != 1) return 1; // one 16-bit number
        const std::uint32_t value = tiff.u16(entry + 8);
        return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
    }
    return 1;
}

Picture oriented(Picture stored, int orientation) {
    if (orientation <= 1 || orientation > 8) return stored;
    // The stored first row is the scene's top (1, 2), bottom (3, 4), left (5, 8 by column) or right (6, 7).
    const bool across = orientation >= 5;
    const bool flip_x = orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
    const bool flip_y = orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
    Picture turned{stored.width, stored.height, {}};
    if (across) std::swap(turned.width, turned.height);
    turned.rgb.resize(stored.rgb.size());
    for (int y = 0; y < turned.height; ++y)
        for (int x = 0; x < turned.width; ++x) {
            int from_x = across ? y : x, from_y = across ? x : y;
            if (flip_x) from_x = stored.width - 1 - from_x;
            if (flip_y) from_y = stored.height - 1 - from_y;
            const std::uint8_t* from = stored.at(from_x, from_y);
            std::uint8_t* to = turned.at(x, y);
            to[0] = from[0], to[1] = from[1], to[2] = from[2];
        }
    return turned;
}

} // namespace tidemark::grid
