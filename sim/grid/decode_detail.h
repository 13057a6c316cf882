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

enum class Profiles { applied, ignored };

Photograph decode_jpeg(Bytes, const std::string& shown, const PictureLimits&, const ScaleNeeded&, Profiles);
Photograph decode_png(Bytes, const std::string& shown, const PictureLimits&);
GreyPicture decode_png_grey(Bytes, const std::string& shown, const PictureLimits&);

/// What a header claims, and what reading it so would take.
struct Claim {
    std::int64_t width = 0, height = 0; ///< of the whole picture
    std::int64_t pixels = 0;            ///< that are read: fewer at a smaller scale
    std::int64_t memory_bytes = 0;
};

/// BadInput unless 1 ... longest_side pixels each way, and what is read within the limits.
void refuse_sides(const Claim&, const std::string& shown);
void refuse_beyond(const PictureLimits&, const Claim&, const std::string& shown);
constexpr std::int64_t longest_side = 20'000;

inline float grey_of(float r, float g, float b) { return 0.2126f * r + 0.7152f * g + 0.0722f * b; }

constexpr const char* cut_short = "the picture is damaged or cut short";

} // namespace tidemark::grid
