/// The chunks of a PNG file (ISO/IEC 15948): checksum, header, and a walk that finds damage before any decoding.
#pragma once
#include "grid/decode_detail.h"

namespace tidemark::grid {

constexpr std::uint8_t png_signature[8] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};

std::uint32_t png_crc(Bytes); ///< CRC-32 of type and data (ISO/IEC 15948 annex D)

struct PngHeader {
    std::int64_t width = 0, height = 0;
    int bit_depth = 8, colour_type = 0;
    bool interlaced = false;
    Bytes profile;            ///< what the iCCP chunk holds
    bool has_profile = false; ///< such a chunk is there; with a wrong checksum `profile` is empty
    int channels() const;
    std::int64_t row_bytes() const;     ///< of all rows as inflated, their filter bytes apart
    std::int64_t decoder_bytes() const; ///< what decoding takes at its fullest moment, the finished picture aside
};

/// What the chunks say, after every one that makes up the picture was found whole and its checksum right.
/// Errors: BadInput (damaged or cut short; size or what decoding takes out of limits).
PngHeader png_header(Bytes png, const std::string& shown, const PictureLimits&);

} // namespace tidemark::grid
