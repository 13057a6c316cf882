/// Bytes of one file to a picture: what picture.cpp puts together, inside this room only.
///
/// `shown` names the file in messages. Every decoder looks at the size its header claims before it allocates.
/// Errors: BadInput.
#pragma once
#include <cstdint>
#include <span>
#include <string>

#include "grid/picture.h"

namespace tidemark::grid {

using Bytes = std::span<const std::uint8_t>;

Picture decode_jpeg(Bytes, const std::string& shown, const PictureLimits&);
Picture decode_png(Bytes, const std::string& shown, const PictureLimits&);
GreyPicture decode_png_grey(Bytes, const std::string& shown, const PictureLimits&);

/// BadInput unless 1 ... longest_side pixels each way and at most `max_pixels` together.
void refuse_size(std::int64_t width, std::int64_t height, const std::string& shown, const PictureLimits&);
constexpr std::int64_t longest_side = 20'000;

inline float grey_of(float r, float g, float b) { return 0.2126f * r + 0.7152f * g + 0.0722f * b; }

constexpr const char* cut_short = "the picture is damaged or cut short";

} // namespace tidemark::grid
