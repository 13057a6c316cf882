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
        if (needed && png_crc(png.subspan(at + 4, length + 4)) != u32(png, at + 8 + length)) throw damaged;
        if (first) {
            header = {u32(png, at + 8), u32(png, at + 12), png[at + 16]};
            refuse_size(header.width, header.height, shown, limits);
        }
        data = data || (is(png, at + 4, "IDAT") && length > 0);
        if (is(png, at + 4, "IEND")) break;
        at += length + 12;
    }
    if (!data) throw damaged;
    return header;
}

} // namespace tidemark::grid
