/// Pictures in and out: 8-bit sRGB colour from PNG or JPEG, PNG out with its physical size.
///
/// read_picture refuses before it allocates: file size, then the header's claimed size (at most `max_pixels`), then
/// the decode. JPEG by libturbojpeg with the EXIF orientation applied, PNG by stb_image (any bit depth and kind;
/// alpha laid over paper white, 255). Errors: BadInput naming `shown_as` and what is wrong (missing, unreadable, not a
/// PNG or JPEG, truncated, too large).
#pragma once
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace tidemark::grid {

struct Picture {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgb; ///< width*height*3, row by row from the top left
    const std::uint8_t* at(int x, int y) const { return rgb.data() + 3 * (static_cast<std::size_t>(y) * width + x); }
    std::uint8_t* at(int x, int y) { return rgb.data() + 3 * (static_cast<std::size_t>(y) * width + x); }
};

/// Grey values 0 ... 1 (a mask; 16-bit files keep their steps).
struct GreyPicture {
    int width = 0, height = 0;
    std::vector<float> value;
    float at(int x, int y) const { return value[static_cast<std::size_t>(y) * width + x]; }
};

struct PictureLimits {
    std::int64_t max_pixels = 100'000'000;
    std::int64_t max_file_bytes = 512ll << 20;
};

/// `shown_as`: what to call the file in a message, e.g. `plan.toml:12: mask "masks/sky.png"`; empty: the path.
Picture read_picture(const std::filesystem::path&, const std::string& shown_as = {}, const PictureLimits& = {});
GreyPicture read_grey(const std::filesystem::path&, const std::string& shown_as = {}, const PictureLimits& = {});

/// PNG bytes; `pixels_per_m` > 0 goes into pHYs, so that the picture opens at the sheet's size; sRGB chunk included.
std::vector<std::uint8_t> png_bytes(const Picture&, double pixels_per_m = 0);
std::vector<std::uint8_t> png_bytes(const GreyPicture&); ///< 8-bit grey, linear code (value × 255)

/// Resampled to width × height: area mean when it shrinks, bilinear when it grows; a constant stays that constant.
Picture resized(const Picture&, int width, int height);
GreyPicture resized(const GreyPicture&, int width, int height);

} // namespace tidemark::grid
