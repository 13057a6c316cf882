#include <zlib.h>

#include <algorithm>
#include <string_view>

#include "grid/colour_profile_detail.h"
#include "grid/jpeg_segments_detail.h"

namespace tidemark::grid {

namespace {

constexpr std::size_t largest = 16 << 20;
const Profile damaged = std::vector<std::uint8_t>{};

} // namespace

Profile jpeg_profile(Bytes jpeg) {
    using namespace std::string_view_literals;
    const std::vector<Bytes> segments = jpeg_segments(jpeg, 0xE2, "ICC_PROFILE\0"sv);
    if (segments.empty()) return std::nullopt;
    std::vector<Bytes> pieces(segments.size());
    std::vector<bool> there(segments.size(), false);
    std::size_t size = 0;
    for (const Bytes& segment : segments) {
        if (segment.size() < 2) return damaged;
        const std::size_t number = segment[0], count = segment[1];
        if (count != segments.size() || number < 1 || number > count || there[number - 1]) return damaged;
        there[number - 1] = true;
        pieces[number - 1] = segment.subspan(2);
        size += segment.size() - 2;
    }
    if (size > largest) return damaged;
    std::vector<std::uint8_t> whole;
    whole.reserve(size);
    for (const Bytes& piece : pieces) whole.insert(whole.end(), piece.begin(), piece.end());
    return whole;
}

Profile png_profile(Bytes chunk) {
    const Bytes head = chunk.first(std::min<std::size_t>(chunk.size(), 80)); // a name of 1 to 79 bytes
    const auto name_end = std::find(head.begin(), head.end(), std::uint8_t{0});
    const auto packed_at = static_cast<std::size_t>(name_end - head.begin()) + 2;
    if (name_end == head.begin() || name_end == head.end() || chunk.size() < packed_at || chunk[packed_at - 1] != 0)
        return damaged;
    const Bytes packed = chunk.subspan(packed_at);
    std::vector<std::uint8_t> whole;
    z_stream stream{};
    stream.next_in = const_cast<Bytef*>(packed.data()); // zlib only reads there
    stream.avail_in = static_cast<uInt>(std::min<std::size_t>(packed.size(), 2 * largest));
    if (inflateInit(&stream) != Z_OK) throw std::bad_alloc();
    int state = Z_OK;
    while (state == Z_OK && whole.size() < largest) {
        constexpr std::size_t step = 64 << 10;
        whole.resize(whole.size() + step);
        stream.next_out = whole.data() + whole.size() - step;
        stream.avail_out = step;
        state = inflate(&stream, Z_NO_FLUSH); // Z_BUF_ERROR when the data ends too soon
    }
    whole.resize(whole.size() - stream.avail_out);
    inflateEnd(&stream);
    return state == Z_STREAM_END ? whole : *damaged;
}

} // namespace tidemark::grid
