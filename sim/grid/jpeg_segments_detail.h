/// The marker segments in front of a JPEG's first scan (ITU-T T.81, annex B), and those that matter here.
///
/// Nothing is read outside `jpeg`, whatever lengths the file claims.
#pragma once
#include "grid/decode_detail.h"

namespace tidemark::grid {

/// Contents of the first segment with that marker byte (0xE1: APP1) whose text starts with `label`, the label cut
/// off; empty when there is none.
Bytes jpeg_segment(Bytes jpeg, std::uint8_t marker, std::string_view label);

/// All of them, in the file's order; a segment may be empty.
std::vector<Bytes> jpeg_segments(Bytes jpeg, std::uint8_t marker, std::string_view label);

/// Samples a pixel, colour often stored coarser, that a decoder must hold of the whole picture at once, at any
/// scale, because each scan brings only a part of them (progressive, or a scan a component); 0 when one scan has all.
double samples_held(Bytes jpeg);

/// EXIF orientation 1 ... 8 (tag 0x0112 of the first directory, CIPA DC-008); 1 when absent or out of range.
int exif_orientation(Bytes jpeg);

/// The picture turned and mirrored as an orientation of 1 ... 8 asks, so that its top left comes first.
Picture oriented(Picture, int orientation);

} // namespace tidemark::grid
