/// The orchard as pictures: the reference, and a mask for each area of the plan, from one and the same look().
#pragma once
#include "grid/picture.h"

#include <cstdint>
#include <span>
#include <vector>

namespace orchard {

struct Seen;

constexpr double reference_pixels_per_mm = 3, mask_pixels_per_mm = 2;

/// An area of the plan: what belongs to it.
struct Area {
    const char* name = "";
    bool (*holds)(const Seen&) = nullptr;
    bool one_piece = false; ///< only its largest piece is kept
};
std::span<const Area> areas();

/// One pixel of the reference, 8-bit sRGB: the mean of 3 x 3 looks, taken over light rather than over code values.
void reference_pixel(int x, int y, std::uint8_t* rgb);
tidemark::grid::Picture draw_reference();

/// Share of mask pixel (x, y) that each area holds, 0 ... 1, in the order of areas(); pieces not yet dropped.
void mask_pixel(int x, int y, std::span<float> share);
/// All masks, in the order of areas().
std::vector<tidemark::grid::GreyPicture> draw_masks();

} // namespace orchard
