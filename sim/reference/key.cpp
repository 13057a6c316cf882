#include "reference/key.h"

#include "colour/lab.h"
#include "grid/rows.h"
#include "reference/value_map.h"

#include <algorithm>
#include <cmath>

namespace tidemark::reference {

namespace {

constexpr double end_share = 0.005, least_range_L = 1;

colour::Srgb8 pixel(const grid::Picture& p, int x, int y) {
    const std::uint8_t* rgb = p.at(x, y);
    return {rgb[0], rgb[1], rgb[2]};
}

} // namespace

double Key::at(double lstar) const {
    if (!moves())
        return lstar;
    const double range = from_light - from_dark;
    const double moved = range < least_range_L ? lstar + (to_dark - from_dark)
                                               : to_dark + (lstar - from_dark) * (to_light - to_dark) / range;
    return std::clamp(moved, 0.0, 100.0);
}

Key key_of(const grid::Picture& picture) {
    std::vector<float> lstar = value_map(picture).lstar;
    const auto percentile = [&](double share) {
        const auto at = lstar.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(lstar.size() - 1));
        std::nth_element(lstar.begin(), at, lstar.end());
        return static_cast<double>(*at);
    };
    Key key;
    key.to_dark = key.from_dark = percentile(end_share);
    key.to_light = key.from_light = percentile(1 - end_share);
    if (key.from_dark >= darkest_wash_lstar)
        return key;
    key.to_dark = darkest_wash_lstar;
    if (key.from_light - key.from_dark < least_range_L)
        key.to_light = key.to_dark; // one value
    else
        key.to_light = std::max(key.from_light, least_lightest_lstar);
    return key;
}

grid::Picture in_key(const grid::Picture& picture, const Key& key) {
    grid::Picture moved = picture;
    if (!key.moves())
        return moved;
    grid::for_rows(picture.height, static_cast<long>(picture.width) * picture.height, [&](int y) {
        for (int x = 0; x < picture.width; ++x) {
            colour::Lab lab = colour::lab_from_srgb(pixel(picture, x, y));
            lab.L = key.at(lab.L);
            const colour::Srgb8 c = colour::srgb_from(colour::xyz_from(lab));
            std::uint8_t* rgb = moved.at(x, y);
            rgb[0] = c.r, rgb[1] = c.g, rgb[2] = c.b;
        }
    });
    return moved;
}

} // namespace tidemark::reference
