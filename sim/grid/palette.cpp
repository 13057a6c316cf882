#include "grid/palette_detail.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace tidemark::grid {

namespace {

struct Colour {
    std::uint32_t code; ///< 0xRRGGBB
    std::uint32_t pixels;
    int channel(int c) const { return static_cast<int>(code >> (16 - 8 * c) & 0xFF); }
};

std::uint32_t code_of(const std::uint8_t* rgb) {
    return static_cast<std::uint32_t>(rgb[0]) << 16 | static_cast<std::uint32_t>(rgb[1]) << 8 | rgb[2];
}

/// All different colours, by code. Sorted picture by picture: one after the other they hardly bring new ones.
std::vector<Colour> colours_in(const std::vector<const Picture*>& pictures) {
    std::vector<Colour> all, merged;
    std::vector<std::uint32_t> codes;
    for (const Picture* picture : pictures) {
        codes.clear();
        for (std::size_t k = 0; k < picture->rgb.size(); k += 3)
            codes.push_back(code_of(&picture->rgb[k]));
        std::sort(codes.begin(), codes.end());
        merged.clear();
        auto old = all.begin();
        for (std::size_t k = 0; k < codes.size();) {
            const std::size_t from = k;
            while (k < codes.size() && codes[k] == codes[from])
                ++k;
            while (old != all.end() && old->code < codes[from])
                merged.push_back(*old++);
            const std::uint32_t before = old != all.end() && old->code == codes[from] ? (old++)->pixels : 0;
            merged.push_back({codes[from], before + static_cast<std::uint32_t>(k - from)});
        }
        merged.insert(merged.end(), old, all.end());
        all.swap(merged);
    }
    return all;
}

struct Box {
    std::span<Colour> colours;
    double mean[3] = {};
    int channel = 0;   ///< along which it is widest
    double spread = 0; ///< sum of squares from the mean, along that

    explicit Box(std::span<Colour> inside) : colours(inside) {
        double pixels = 0, sum[3] = {}, squares[3] = {};
        for (const Colour& colour : colours) {
            pixels += colour.pixels;
            for (int c = 0; c < 3; ++c) {
                const double v = colour.channel(c);
                sum[c] += colour.pixels * v, squares[c] += colour.pixels * v * v;
            }
        }
        for (int c = 0; c < 3; ++c) {
            mean[c] = sum[c] / pixels;
            const double wide = squares[c] - sum[c] * mean[c];
            if (colours.size() > 1 && wide > spread)
                channel = c, spread = wide;
        }
    }
    Rgb shown() const {
        Rgb rgb{};
        for (int c = 0; c < 3; ++c)
            rgb[c] = static_cast<std::uint8_t>(std::lround(mean[c]));
        return rgb;
    }
};

} // namespace

Palette::Palette(const std::vector<const Picture*>& pictures, int most) {
    std::vector<Colour> all = colours_in(pictures);
    std::vector<Box> boxes{Box(all)};
    while (static_cast<int>(boxes.size()) < most) {
        const auto widest = std::max_element(boxes.begin(), boxes.end(),
                                             [](const Box& a, const Box& b) { return a.spread < b.spread; });
        if (widest->spread <= 0)
            break; // every colour has a box of its own
        const std::span<Colour> inside = widest->colours;
        const auto cut = std::stable_partition(inside.begin(), inside.end(), [&](const Colour& colour) {
            return colour.channel(widest->channel) <= widest->mean[widest->channel];
        });
        const auto below = static_cast<std::size_t>(cut - inside.begin());
        if (below == 0 || below == inside.size()) { // the mean of equal values, rounded
            widest->spread = 0;
            continue;
        }
        *widest = Box(inside.first(below));
        boxes.emplace_back(inside.subspan(below));
    }
    std::vector<std::pair<std::uint32_t, std::uint8_t>> places;
    for (const Box& box : boxes) {
        for (const Colour& colour : box.colours)
            places.push_back({colour.code, static_cast<std::uint8_t>(colours_.size())});
        colours_.push_back(box.shown());
    }
    std::sort(places.begin(), places.end());
    for (const auto& [code, index] : places)
        codes_.push_back(code), index_.push_back(index);
}

std::uint8_t Palette::index_of(const std::uint8_t* rgb) const {
    const auto at = std::lower_bound(codes_.begin(), codes_.end(), code_of(rgb));
    return index_[static_cast<std::size_t>(at - codes_.begin())];
}

} // namespace tidemark::grid
