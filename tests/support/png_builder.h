/// PNG files written byte by byte: kinds our own writer never makes, and claims that are not true (ISO/IEC 15948,
/// RFC 1950, RFC 1951).
#pragma once
#include <cstdint>
#include <string_view>
#include <vector>

#include "grid/png_chunks_detail.h"

namespace tidemark::tests {

using Bytes = std::vector<std::uint8_t>;

inline void put_u32(Bytes& out, std::uint32_t v) {
    for (const int shift : {24, 16, 8, 0}) out.push_back(static_cast<std::uint8_t>(v >> shift));
}

inline void put_chunk(Bytes& out, std::string_view type, const Bytes& data) {
    put_u32(out, static_cast<std::uint32_t>(data.size()));
    const std::size_t begin = out.size();
    for (const char c : type) out.push_back(static_cast<std::uint8_t>(c));
    out.insert(out.end(), data.begin(), data.end());
    put_u32(out, grid::png_crc(grid::Bytes(out).subspan(begin)));
}

/// Whole file around compressed data. Colour type 0 grey, 2 colour, 4 grey with alpha, 6 colour with alpha.
inline Bytes png_of_idat(std::uint32_t width, std::uint32_t height, int depth, int colour_type, const Bytes& idat) {
    Bytes out(std::begin(grid::png_signature), std::end(grid::png_signature)), header;
    put_u32(header, width);
    put_u32(header, height);
    for (const int v : {depth, colour_type, 0, 0, 0}) header.push_back(static_cast<std::uint8_t>(v));
    put_chunk(out, "IHDR", header);
    put_chunk(out, "IDAT", idat);
    put_chunk(out, "IEND", {});
    return out;
}

/// `rows`: filter byte and samples of each row, at most 65535 bytes, kept in one stored block.
inline Bytes png_of(std::uint32_t width, std::uint32_t height, int depth, int colour_type, const Bytes& rows) {
    const auto size = static_cast<std::uint32_t>(rows.size());
    Bytes z{0x78, 0x01, 0x01};
    for (const std::uint32_t v : {size, ~size})
        for (const int shift : {0, 8}) z.push_back(static_cast<std::uint8_t>(v >> shift));
    z.insert(z.end(), rows.begin(), rows.end());
    std::uint32_t a = 1, b = 0; // Adler-32
    for (const std::uint8_t byte : rows) a = (a + byte) % 65521, b = (b + a) % 65521;
    put_u32(z, b << 16 | a);
    return png_of_idat(width, height, depth, colour_type, z);
}

/// A deflate stream of `size` bytes: one literal, then repeats of it, 258 bytes for every 13 bits; without an end.
inline Bytes endless_zeros(std::size_t size) {
    Bytes z{0x78, 0x01};
    std::uint32_t bits = 0;
    int count = 0;
    const auto put = [&](std::uint32_t value, int length) { // lowest bit first
        bits |= value << count;
        for (count += length; count >= 8; count -= 8, bits >>= 8) z.push_back(static_cast<std::uint8_t>(bits));
    };
    put(0b011, 3);      // last block, fixed codes
    put(0b00001100, 8); // literal 0 is 00110000, sent highest bit first
    while (z.size() < size) put(0b10100011, 8), put(0, 5); // length 258 is 11000101, distance 1 is 00000
    return z;
}

} // namespace tidemark::tests
