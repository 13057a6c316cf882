#include "grid/png_chunks_detail.h"

#include <algorithm>
#include <array>

#include "grid/problem.h"

namespace tidemark::grid {

namespace {

constexpr std::array<std::uint32_t, 256> crc_table() {
    std::array<std::uint32_t, 256> table{};
    for (std::uint32_t n = 0; n < 256; ++n) {
        std::uint32_t c = n;
        for (int bit = 0; bit < 8; ++bit) c = c & 1 ? 0xEDB88320u ^ c >> 1 : c >> 1;
        table[n] = c;
    }
    return table;
}

std::uint32_t u32(Bytes b, std::size_t at) {
    return static_cast<std::uint32_t>(b[at]) << 24 | b[at + 1] << 16 | b[at + 2] << 8 | b[at + 3];
}

bool is(Bytes png, std::size_t at, std::string_view type) {
    return std::equal(type.begin(), type.end(), png.begin() + static_cast<std::ptrdiff_t>(at));
}

} // namespace

std::uint32_t png_crc(Bytes bytes) {
    static constexpr auto table = crc_table();
    std::uint32_t c = 0xFFFFFFFFu;
    for (const std::uint8_t byte : bytes) c = table[(c ^ byte) & 0xFF] ^ c >> 8;
    return ~c;
}

int PngHeader::channels() const { return colour_type == 2 ? 3 : colour_type == 4 ? 2 : colour_type == 6 ? 4 : 1; }

std::int64_t PngHeader::row_bytes() const { return (width * channels() * bit_depth + 7) / 8 * height; }

std::int64_t PngHeader::decoder_bytes() const {
    // The rows as inflated, the samples from them (of an interlaced picture the finished and the pass's), and of a
    // palette the colours looked up. A transparent colour adds a channel.
    const bool palette = colour_type == 3;
    const int out = palette ? 1 : std::min(channels() + 1, 4), bytes = bit_depth == 16 ? 2 : 1;
    return row_bytes() + width * height * (out * bytes * (interlaced ? 2 : 1) + (palette ? 4 : 0));
}

PngHeader png_header(Bytes png, const std::string& shown, const PictureLimits& limits) {
    const BadInput damaged(shown, cut_short);
    PngHeader header;
    bool data = false;
    for (std::size_t at = sizeof png_signature;;) {
        if (at > png.size() || png.size() - at < 12) throw damaged; // length, type, checksum
        const std::size_t length = u32(png, at);
        if (length > png.size() - at - 12) throw damaged;
        const bool first = at == sizeof png_signature;
        if (first != is(png, at + 4, "IHDR") || (first && length != 13)) throw damaged;
        // Chunks with a small first letter can be left out; an editor may have written them badly.
        const bool needed = (png[at + 4] & 0x20) == 0 || is(png, at + 4, "tRNS");
        const bool profile = is(png, at + 4, "iCCP") && !header.has_profile;
        const bool whole =
            (!needed && !profile) || png_crc(png.subspan(at + 4, length + 4)) == u32(png, at + 8 + length);
        if (needed && !whole) throw damaged;
        if (first) {
            header.width = u32(png, at + 8), header.height = u32(png, at + 12);
            header.bit_depth = png[at + 16], header.colour_type = png[at + 17], header.interlaced = png[at + 20] != 0;
            Claim claim{header.width, header.height};
            refuse_sides(claim, shown);
            claim.pixels = header.width * header.height;
            // The finished picture: grey as floats, colour takes 3. The packed data is put together first, copied as it grows; the
            // rows are inflated beside it, and it is gone before the samples are made.
            const auto packed = static_cast<std::int64_t>(png.size());
            claim.memory_bytes = std::max({header.decoder_bytes() + 4 * claim.pixels, 2 * packed + header.row_bytes(), 3 * packed});
            refuse_beyond(limits, claim, shown);
        }
        if (profile) header.has_profile = true, header.profile = whole ? png.subspan(at + 8, length) : Bytes{};
        data = data || (is(png, at + 4, "IDAT") && length > 0);
        if (is(png, at + 4, "IEND")) break;
        at += length + 12;
    }
    if (!data) throw damaged;
    return header;
}

} // namespace tidemark::grid
