/// Colour profiles that pictures carry (ICC.1, ISO 15076-1), and their colours brought to sRGB by lcms2.
///
/// Relative colorimetric with black point compensation: white stays paper white, the darkest black becomes black, and
/// what lies between keeps its lightness, by which a painter's values are judged; colours that sRGB can't show are
/// clipped. Perceptual would be the maker's own rendering where a profile holds tables for it, and the profiles of
/// cameras and screens hold none.
///
/// Nothing is read outside the bytes given, and no profile of more than 16 MiB.
#pragma once
#include "grid/decode_detail.h"

#include <optional>

namespace tidemark::grid {

/// The bytes of a profile; none when the picture has none; empty when it is there but can't be put together.
using Profile = std::optional<std::vector<std::uint8_t>>;

/// From APP2 segments: number and count behind the label, each piece once, in whatever order (ICC.1 annex B.4).
Profile jpeg_profile(Bytes jpeg);

/// From what an iCCP chunk holds: a name, a zero, the method 0, zlib data (ISO/IEC 15948, 11.3.3.3).
Profile png_profile(Bytes chunk);

/// What the file stores; grey comes as three equal codes.
enum class Samples { colour, grey };

/// Codes of 0 ... 65535 of one row, three a pixel, where the file holds as many steps.
using DeepRow = std::function<void(int y, std::uint16_t* codes)>;

/// The picture's codes to sRGB, from its deep rows where it has some: a profile may spread few codes of 8 bits over many,
/// as a linear one does in the darks. It stays as it is without a profile, under one that means sRGB to within a code, and
/// under one that can't be used; of the last the answer speaks, else it is empty.
std::string to_srgb(Picture&, const Profile&, Samples, const DeepRow& = {});

/// The same for a picture stored as printing inks, four codes a pixel; `none` is the code for no ink, 0 or 255. The picture
/// comes as plain inks, each taking its colour's light alone, and stays so where no profile for inks tells more: the answer
/// speaks of that.
std::string inks_to_srgb(Picture&, Bytes cmyk, int none, const Profile&);

} // namespace tidemark::grid
