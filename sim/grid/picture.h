/// Pictures in and out: 8-bit sRGB colour from PNG or JPEG, PNG out with its physical size, JPEG for pages.
///
/// Refused before anything is allocated: file size, then the header's claimed size (at most `max_pixels`) and what
/// decoding it takes, then the decode. JPEG by libturbojpeg with the EXIF orientation applied, PNG by stb_image (any
/// bit depth and kind; alpha laid over paper white, 255). Colours under an embedded ICC profile are brought to sRGB
/// (colour_profile_detail.h); without one they are taken as sRGB, gAMA and cHRM chunks are passed over. Grey values
/// are numbers, not colours: no profile is looked at. Errors: BadInput naming `shown_as` and what is wrong (missing,
/// unreadable, not a PNG or JPEG, truncated, too large).
#pragma once
#include <cstdint>
#include <filesystem>
#include <functional>
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

/// What decoding one picture may take, the file itself aside: 1 GiB, or what $TIDEMARK_PICTURE_MIB says, 16 to 65536. Errors:
/// BadInput when it says something else.
std::int64_t picture_memory_bytes();

struct PictureLimits {
    std::int64_t max_pixels = 100'000'000; ///< as read: a photograph read at half its size counts a quarter
    std::int64_t max_file_bytes = 512ll << 20;
    std::int64_t max_memory_bytes = picture_memory_bytes();
    float under = 1; ///< what the alpha of a grey PNG is laid over: 1 paper, 0 nothing
};

/// The share of its width and height that a picture of so many pixels (turned as its camera was held) must still
/// have to be of use; 1 and more: all of it. It may throw what speaks against such a picture, before it is decoded.
using ScaleNeeded = std::function<double(int width, int height)>;

/// A picture, and what there is to say of its file.
struct Photograph {
    Picture picture;
    int full_width = 0, full_height = 0; ///< pixels in the file, turned
    std::string note;                    ///< what was passed over in it, for the painter to hear; mostly empty
};

/// A JPEG is decoded at the smallest of libturbojpeg's scales (eighths) that is still enough, which saves time and
/// memory; a PNG is always read whole.
Photograph read_photograph(const std::filesystem::path&, const std::string& shown_as = {}, const PictureLimits& = {},
                           const ScaleNeeded& = {});

/// `shown_as`: what to call the file in a message, e.g. `plan.toml:12: mask "masks/sky.png"`; empty: the path.
Picture read_picture(const std::filesystem::path&, const std::string& shown_as = {}, const PictureLimits& = {});
GreyPicture read_grey(const std::filesystem::path&, const std::string& shown_as = {}, const PictureLimits& = {});

/// PNG bytes; `pixels_per_m` > 0 goes into pHYs, so that the picture opens at the sheet's size; sRGB chunk included.
std::vector<std::uint8_t> png_bytes(const Picture&, double pixels_per_m = 0);
std::vector<std::uint8_t> png_bytes(const GreyPicture&); ///< 8-bit grey, linear code (value × 255)

/// JPEG bytes, baseline, colour at half the resolution: for a page that must stay small. `quality` 1 to 100; sides of 1 to
/// 65535 pixels; else refused (grid/within.h). The same picture gives the same bytes.
std::vector<std::uint8_t> jpeg_bytes(const Picture&, int quality = 85);

/// Resampled to width × height: area mean when it shrinks, bilinear when it grows; a constant stays that constant.
Picture resized(const Picture&, int width, int height);
GreyPicture resized(const GreyPicture&, int width, int height);

} // namespace tidemark::grid
