#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>

#include "grid/png_chunks_detail.h"
#include "grid/problem.h"

#define STB_IMAGE_WRITE_STATIC
#define STB_IMAGE_WRITE_IMPLEMENTATION
#define STBI_WRITE_NO_STDIO
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb_image_write.h>
#pragma GCC diagnostic pop

namespace tidemark::grid {

namespace {

void put_u32(std::vector<std::uint8_t>& out, std::uint32_t v) {
    for (const int shift : {24, 16, 8, 0}) out.push_back(static_cast<std::uint8_t>(v >> shift));
}

void put_chunk(std::vector<std::uint8_t>& out, std::string_view type, const std::vector<std::uint8_t>& data) {
    put_u32(out, static_cast<std::uint32_t>(data.size()));
    const std::size_t begin = out.size();
    out.insert(out.end(), type.begin(), type.end());
    out.insert(out.end(), data.begin(), data.end());
    put_u32(out, png_crc(Bytes(out).subspan(begin)));
}

/// Our chunks go between the header and the data, as ISO/IEC 15948 orders them.
std::vector<std::uint8_t> encoded(const std::uint8_t* samples, int width, int height, int channels,
                                  const std::vector<std::uint8_t>& chunks) {
    // The encoder counts in int.
    if (width < 1 || height < 1 || (static_cast<std::int64_t>(width) * channels + 1) * height > 2'000'000'000)
        throw InternalError("a picture of a size that can't be written as PNG");
    int size = 0;
    const std::unique_ptr<unsigned char, decltype(&std::free)> png(
        stbi_write_png_to_mem(samples, width * channels, width, height, channels, &size), &std::free);
    if (!png) throw std::bad_alloc();
    constexpr std::size_t header_end = sizeof png_signature + 12 + 13;
    const Bytes whole(png.get(), static_cast<std::size_t>(size));
    const Bytes head = whole.first(header_end), rest = whole.subspan(header_end);
    std::vector<std::uint8_t> out(whole.size() + chunks.size());
    auto to = std::copy(head.begin(), head.end(), out.begin());
    to = std::copy(chunks.begin(), chunks.end(), to);
    std::copy(rest.begin(), rest.end(), to);
    return out;
}

} // namespace

std::vector<std::uint8_t> png_bytes(const Picture& picture, double pixels_per_m) {
    std::vector<std::uint8_t> chunks;
    put_chunk(chunks, "sRGB", {0}); // perceptual intent
    if (pixels_per_m > 0 && pixels_per_m < 4e9) {
        std::vector<std::uint8_t> size;
        const auto whole = static_cast<std::uint32_t>(std::llround(pixels_per_m));
        put_u32(size, whole);
        put_u32(size, whole);
        size.push_back(1); // per metre
        put_chunk(chunks, "pHYs", size);
    }
    return encoded(picture.rgb.data(), picture.width, picture.height, 3, chunks);
}

std::vector<std::uint8_t> png_bytes(const GreyPicture& picture) {
    std::vector<std::uint8_t> code(picture.value.size());
    for (std::size_t k = 0; k < code.size(); ++k) {
        const float v = picture.value[k];
        code[k] = static_cast<std::uint8_t>(v > 0 ? (v < 1 ? v * 255.0f + 0.5f : 255.0f) : 0.0f); // NaN: 0
    }
    return encoded(code.data(), picture.width, picture.height, 1, {});
}

} // namespace tidemark::grid
