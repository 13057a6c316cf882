#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <new>
#include <string_view>

#include "grid/colour_profile_detail.h"
#include "grid/png_chunks_detail.h"
#include "grid/problem.h"

namespace {

/// What the decoder may have allocated at one time: a small file can claim to inflate to gigabytes. Each block
/// carries its size in front of it.
constexpr std::size_t in_front = 16;
thread_local std::size_t budget_left = 0;

thread_local bool no_memory = false; ///< the machine had none, whatever the budget

void* budget_malloc(std::size_t size) {
    if (size > budget_left) return nullptr;
    auto* block = static_cast<unsigned char*>(std::malloc(size + in_front));
    if (block == nullptr) return no_memory = true, nullptr;
    budget_left -= size;
    std::memcpy(block, &size, sizeof size);
    return block + in_front;
}

void budget_free(void* memory) {
    if (memory == nullptr) return;
    unsigned char* block = static_cast<unsigned char*>(memory) - in_front;
    std::size_t size = 0;
    std::memcpy(&size, block, sizeof size);
    budget_left += size;
    std::free(block);
}

void* budget_realloc(void* memory, std::size_t size) {
    void* fresh = budget_malloc(size);
    if (fresh == nullptr || memory == nullptr) return fresh;
    std::size_t old = 0;
    std::memcpy(&old, static_cast<unsigned char*>(memory) - in_front, sizeof old);
    std::memcpy(fresh, memory, old < size ? old : size);
    budget_free(memory);
    return fresh;
}

} // namespace

#define STBI_MALLOC(size) budget_malloc(size)
#define STBI_REALLOC(memory, size) budget_realloc(memory, size)
#define STBI_FREE(memory) budget_free(memory)
#define STB_IMAGE_STATIC // a library may bring another copy along
#define STB_IMAGE_IMPLEMENTATION
#define STBI_ONLY_PNG
#define STBI_NO_STDIO
#define STBI_MAX_DIMENSIONS 20000
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb_image.h>
#pragma GCC diagnostic pop

namespace tidemark::grid {

namespace {

/// Samples as stored, 8 or 16 bits, 1 to 4 channels.
template <class Sample> struct Decoded {
    int width = 0, height = 0, channels = 0;
    std::unique_ptr<Sample, decltype(&budget_free)> samples{nullptr, &budget_free};
};

template <class Sample> Decoded<Sample> decode(Bytes png, const std::string& shown, const PngHeader& header) {
    // Room besides: the packed data is copied (twice as it grows), and rows that are a little more than was guessed (an
    // interlaced picture's) take three times their room while they are moved.
    const auto asked = static_cast<std::size_t>(header.decoder_bytes());
    budget_left = asked + 3 * png.size() + std::min<std::size_t>(2 * asked, 64u << 20) + (1u << 20);
    no_memory = false;
    Decoded<Sample> d;
    const int size = static_cast<int>(png.size());
    if constexpr (sizeof(Sample) == 2)
        d.samples.reset(stbi_load_16_from_memory(png.data(), size, &d.width, &d.height, &d.channels, 0));
    else
        d.samples.reset(stbi_load_from_memory(png.data(), size, &d.width, &d.height, &d.channels, 0));
    if (d.samples) return d;
    const char* said = stbi_failure_reason(); // none where memory ran out so early that no reason was given
    if (no_memory || said == nullptr) throw std::bad_alloc();
    const std::string_view reason = said;
    if (reason == "outofmem") throw BadInput(shown, "the PNG holds far more data than its size in pixels asks for");
    throw BadInput(shown, fmt::format("the PNG can't be read ({})", reason));
}

/// f(pixel index, r, g, b in 0 ... 1) for pixels from `first` up to `end`, alpha laid over `under`.
template <class Sample, class F> void for_pixels(const Decoded<Sample>& d, std::size_t first, std::size_t end, F&& f,
                                                        float under = 1) {
    constexpr float full = sizeof(Sample) == 2 ? 65535.0f : 255.0f;
    const bool alpha = d.channels == 2 || d.channels == 4;
    const int green = d.channels >= 3 ? 1 : 0, blue = d.channels >= 3 ? 2 : 0;
    for (std::size_t k = first; k < end; ++k) {
        const Sample* s = d.samples.get() + k * d.channels;
        const float cover = alpha ? s[d.channels - 1] / full : 1.0f;
        const auto laid = [&](int c) { return under * (1.0f - cover) + cover * (s[c] / full); };
        f(k, laid(0), laid(green), laid(blue));
    }
}

template <class Sample> std::size_t pixels_of(const Decoded<Sample>& d) {
    return static_cast<std::size_t>(d.width) * d.height;
}

/// Codes of 0 ... 255 for every pixel. (The decoder's own way from 16 bits to 8 cuts off, which is half a code too dark.)
template <class Sample> Photograph photograph_of(const Decoded<Sample>& d, const PngHeader& header) {
    Photograph photograph{{d.width, d.height, {}}, d.width, d.height, {}};
    Picture& picture = photograph.picture;
    picture.rgb.resize(3 * pixels_of(d));
    for_pixels(d, 0, pixels_of(d), [&](std::size_t k, float r, float g, float b) {
        const float rgb[3] = {r, g, b};
        for (int c = 0; c < 3; ++c) picture.rgb[3 * k + c] = static_cast<std::uint8_t>(rgb[c] * 255.0f + 0.5f);
    });
    if (!header.has_profile) return photograph;
    DeepRow deep;
    if constexpr (sizeof(Sample) == 2)
        deep = [&d](int y, std::uint16_t* codes) {
            const std::size_t first = static_cast<std::size_t>(y) * d.width;
            for_pixels(d, first, first + d.width, [&](std::size_t, float r, float g, float b) {
                for (const float v : {r, g, b}) *codes++ = static_cast<std::uint16_t>(v * 65535.0f + 0.5f);
            });
        };
    const Samples samples = d.channels < 3 ? Samples::grey : Samples::colour;
    photograph.note = to_srgb(picture, png_profile(header.profile), samples, deep);
    return photograph;
}

} // namespace

Photograph decode_png(Bytes png, const std::string& shown, const PictureLimits& limits) {
    const PngHeader header = png_header(png, shown, limits);
    if (header.bit_depth == 16) return photograph_of(decode<stbi_us>(png, shown, header), header);
    return photograph_of(decode<stbi_uc>(png, shown, header), header);
}

GreyPicture decode_png_grey(Bytes png, const std::string& shown, const PictureLimits& limits) {
    const PngHeader header = png_header(png, shown, limits);
    GreyPicture grey;
    const auto take = [&grey, under = limits.under](const auto& decoded) {
        grey = {decoded.width, decoded.height, {}};
        grey.value.resize(static_cast<std::size_t>(grey.width) * grey.height);
        for_pixels(decoded, 0, pixels_of(decoded), [&grey](std::size_t k, float r, float g, float b) {
            grey.value[k] = r == g && g == b ? r : grey_of(r, g, b); // the three weights add up to 1 only nearly
        }, under);
    };
    if (header.bit_depth == 16)
        take(decode<stbi_us>(png, shown, header));
    else
        take(decode<stbi_uc>(png, shown, header));
    return grey;
}

} // namespace tidemark::grid
