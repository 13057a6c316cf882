/// The marker segments in front of a JPEG's first scan (ITU-T T.81, annex B), and the two that matter here.
#pragma once
#include "grid/decode_detail.h"

namespace tidemark::grid {

/// Contents of the first segment with that marker byte (0xE1: APP1) whose text starts with `label`, the label cut
/// off; empty when there is none. Never reads outside `jpeg`, whatever lengths the file claims.
Bytes jpeg_segment(Bytes jpeg, std::uint8_t marker, std::string_view label);

/// EXIF orientation 1 ... 8 (tag 0x0112 of the first directory, CIPA DC-008); 1 when absent or out of range.
int exif_orientation(Bytes jpeg);

/// The picture turned and mirrored as an orientation of 1 ... 8 asks, so that its top left comes first.
Picture oriented(Picture, int orientation);

} // namespace tidemark::grid
