#include <fmt/format.h>
#include <turbojpeg.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "grid/colour_profile_detail.h"
#include "grid/jpeg_segments_detail.h"
#include "grid/problem.h"

namespace tidemark::grid {

namespace {

using Decoder = std::unique_ptr<void, decltype(&tjDestroy)>;

/// The library's own words behind ours: they tell an unusual file from a broken one.
[[noreturn]] void refuse(const Decoder& decoder, const std::string& shown) {
    if (tjGetErrorCode(decoder.get()) == TJERR_WARNING) throw BadInput(shown, cut_short);
    throw BadInput(shown, fmt::format("the JPEG can't be read ({})", tjGetErrorStr2(decoder.get())));
}

/// Ink to light. Files with Adobe's marker store 255 for no ink, the others for full ink.
std::vector<std::uint8_t> rgb_from_cmyk(const std::vector<std::uint8_t>& cmyk, bool inverted) {
    std::vector<std::uint8_t> rgb(cmyk.size() / 4 * 3);
    const auto light = [inverted](std::uint8_t code) { return inverted ? code : 255u - code; };
    for (std::size_t k = 0; k < cmyk.size() / 4; ++k)
        for (int c = 0; c < 3; ++c)
            rgb[3 * k + c] = static_cast<std::uint8_t>((light(cmyk[4 * k + c]) * light(cmyk[4 * k + 3]) + 127) / 255);
    return rgb;
}

/// The smallest scale, in eighths, at which neither side has less than the share needed: those up to 1 are all that
/// the library has below, and 1 is the whole picture.
int eighths_needed(double share) {
    if (!(share < 1)) return 8; // NaN: all of it
    return std::clamp(static_cast<int>(std::ceil(share * 8 - 1e-9)), 1, 8);
}

} // namespace

Photograph decode_jpeg(Bytes bytes, const std::string& shown, const PictureLimits& limits,
                       const ScaleNeeded& scale_needed, Profiles profiles) {
    const Decoder decoder(tjInitDecompress(), &tjDestroy);
    if (!decoder) throw std::bad_alloc();
    int width = 0, height = 0, sampling = 0, space = 0;
    if (tjDecompressHeader3(decoder.get(), bytes.data(), bytes.size(), &width, &height, &sampling, &space) != 0)
        refuse(decoder, shown);
    Claim claim{width, height};
    refuse_sides(claim, shown);

    const int orientation = exif_orientation(bytes);
    Photograph photograph;
    photograph.full_width = orientation < 5 ? width : height;
    photograph.full_height = orientation < 5 ? height : width;
    const double share = scale_needed ? scale_needed(photograph.full_width, photograph.full_height) : 1;
    const tjscalingfactor scale{eighths_needed(share), 8};
    const int read_width = TJSCALED(width, scale), read_height = TJSCALED(height, scale);

    const bool ink = space == TJCS_CMYK || space == TJCS_YCCK, grey = space == TJCS_GRAY;
    claim.pixels = static_cast<std::int64_t>(read_width) * read_height;
    const std::int64_t copies = ink ? 4 + 3 : orientation > 1 ? 3 + 3 : 3; // bytes a pixel at the fullest moment
    const double held = samples_held(bytes) * 2 * width * height;         // 16 bits a sample
    claim.memory_bytes = copies * claim.pixels + static_cast<std::int64_t>(held);
    refuse_beyond(limits, claim, shown);

    const int format = ink ? TJPF_CMYK : TJPF_RGB;
    std::vector<std::uint8_t> pixels(static_cast<std::size_t>(claim.pixels) * tjPixelSize[format]);
    // LIMITSCANS: a progressive file may claim thousands of passes over all its pixels.
    const int flags = TJFLAG_ACCURATEDCT | TJFLAG_LIMITSCANS | TJFLAG_STOPONWARNING;
    if (tjDecompress2(decoder.get(), bytes.data(), bytes.size(), pixels.data(), read_width, 0, read_height, format,
                      flags) != 0)
        refuse(decoder, shown);
    Picture& picture = photograph.picture;
    const bool apply = profiles == Profiles::applied;
    if (ink) {
        const bool inverted = !jpeg_segment(bytes, 0xEE, "Adobe").empty();
        picture = {read_width, read_height, rgb_from_cmyk(pixels, inverted)};
        if (apply) photograph.note = inks_to_srgb(picture, pixels, inverted ? 255 : 0, jpeg_profile(bytes));
        std::vector<std::uint8_t>().swap(pixels); // turning takes another picture's room
    } else {
        picture = {read_width, read_height, std::move(pixels)};
        if (apply) photograph.note = to_srgb(picture, jpeg_profile(bytes), grey ? Samples::grey : Samples::colour);
    }
    picture = oriented(std::move(picture), orientation);
    return photograph;
}

} // namespace tidemark::grid
