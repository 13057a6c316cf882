/// JPEG files as a camera writes them, or nearly: pixels, and segments put in front of them (ITU-T T.81, annex B).
#pragma once
#include <turbojpeg.h>

#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "grid/picture.h"

namespace tidemark::tests {

using Bytes = std::vector<std::uint8_t>;

inline Bytes jpeg_of(const Bytes& pixels, int width, int height, int format, int sampling, int flags = 0) {
    const tjhandle encoder = tjInitCompress();
    unsigned char* out = nullptr;
    unsigned long size = 0;
    if (tjCompress2(encoder, pixels.data(), width, 0, height, format, &out, &size, sampling, 95, flags) != 0)
        throw std::runtime_error(tjGetErrorStr2(encoder));
    Bytes bytes(out, out + size);
    tjFree(out);
    tjDestroy(encoder);
    return bytes;
}

/// 48 × 32, four flat quarters: red, green / blue, white.
inline Bytes quarters() {
    Bytes rgb;
    for (int y = 0; y < 32; ++y)
        for (int x = 0; x < 48; ++x) {
            const bool right = x >= 24, low = y >= 16;
            const bool r = (!right && !low) || (right && low), g = right, b = low;
            for (const bool on : {r, g, b}) rgb.push_back(on ? 255 : 0);
        }
    return rgb;
}

/// Name of the colour in the middle of a quarter.
inline char quarter(const grid::Picture& p, bool right, bool low) {
    const std::uint8_t* c = p.at(p.width * (right ? 3 : 1) / 4, p.height * (low ? 3 : 1) / 4);
    const bool r = c[0] > 128, g = c[1] > 128, b = c[2] > 128;
    return r && g && b ? 'w' : r ? 'r' : g ? 'g' : b ? 'b' : '?';
}

inline std::string seen(const grid::Picture& p) {
    return {quarter(p, false, false), quarter(p, true, false), quarter(p, false, true), quarter(p, true, true)};
}

/// The JPEG with one more marker segment right behind its first two bytes.
inline Bytes with_segment(const Bytes& jpeg, std::uint8_t marker, std::string_view label, const Bytes& content) {
    Bytes out(jpeg.begin(), jpeg.begin() + 2);
    const std::size_t length = 2 + label.size() + content.size();
    for (const std::size_t v : {std::size_t{0xFF}, std::size_t{marker}, length >> 8, length & 255})
        out.push_back(static_cast<std::uint8_t>(v));
    for (const char c : label) out.push_back(static_cast<std::uint8_t>(c));
    out.insert(out.end(), content.begin(), content.end());
    out.insert(out.end(), jpeg.begin() + 2, jpeg.end());
    return out;
}

/// The JPEG with an EXIF segment behind its first two bytes that holds one entry: the orientation.
inline Bytes with_orientation(const Bytes& jpeg, int orientation, bool little) {
    Bytes tiff;
    const auto u16 = [&](unsigned v) {
        for (const unsigned part : {little ? v & 255 : v >> 8, little ? v >> 8 : v & 255})
            tiff.push_back(static_cast<std::uint8_t>(part));
    };
    const auto u32 = [&](unsigned v) {
        u16(little ? v & 0xFFFF : v >> 16);
        u16(little ? v >> 16 : v & 0xFFFF);
    };
    tiff.assign(2, little ? 'I' : 'M');
    u16(42), u32(8), u16(1);
    u16(0x0112), u16(3), u32(1), u16(static_cast<unsigned>(orientation)), u16(0), u32(0);
    return with_segment(jpeg, 0xE1, std::string_view("Exif\0\0", 6), tiff);
}

} // namespace tidemark::tests
