#include <fmt/format.h>
#include <turbojpeg.h>

#include <memory>

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

} // namespace

Picture decode_jpeg(Bytes bytes, const std::string& shown, const PictureLimits& limits) {
    const Decoder decoder(tjInitDecompress(), &tjDestroy);
    if (!decoder) throw std::bad_alloc();
    int width = 0, height = 0, sampling = 0, space = 0;
    if (tjDecompressHeader3(decoder.get(), bytes.data(), bytes.size(), &width, &height, &sampling, &space) != 0)
        refuse(decoder, shown);
    refuse_size(width, height, shown, limits);
    const bool ink = space == TJCS_CMYK || space == TJCS_YCCK;
    const int format = ink ? TJPF_CMYK : TJPF_RGB;
    std::vector<std::uint8_t> pixels(static_cast<std::size_t>(width) * height * tjPixelSize[format]);
    // LIMITSCANS: a progressive file may claim thousands of passes over all its pixels.
    const int flags = TJFLAG_ACCURATEDCT | TJFLAG_LIMITSCANS | TJFLAG_STOPONWARNING;
    if (tjDecompress2(decoder.get(), bytes.data(), bytes.size(), pixels.data(), width, 0, height, format, flags) != 0)
        refuse(decoder, shown);
    if (ink) pixels = rgb_from_cmyk(pixels, !jpeg_segment(bytes, 0xEE, "Adobe").empty());
    return oriented({width, height, std::move(pixels)}, exif_orientation(bytes));
}

} // namespace tidemark::grid
