#include "grid/colour_profile_detail.h"

#include <lcms2.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <memory>
#include <numeric>

#include "grid/rows.h"

namespace tidemark::grid {

namespace {

constexpr const char* unreadable_inks =
    "its colour profile could not be read and was ignored: its printing inks (CMYK) are taken as plain inks";
constexpr const char* inks_of_another_kind =
    "its colour profile is not one for printing inks (CMYK) and was ignored: they are taken as plain inks";

using Opened = std::unique_ptr<void, decltype(&cmsCloseProfile)>;
using Transform = std::unique_ptr<void, decltype(&cmsDeleteTransform)>;

constexpr const char* unreadable = "its colour profile could not be read and was ignored: taken as sRGB";
constexpr const char* of_another_kind =
    "its colour profile is not one for its kind of colours and was ignored: taken as sRGB";

/// No two pixels lean on each other, so that rows may be converted in any order (NOCACHE: no last colour remembered).
Transform transform(cmsHPROFILE from, cmsUInt32Number codes, cmsUInt32Number more = 0) {
    const Opened srgb(cmsCreate_sRGBProfile(), &cmsCloseProfile);
    if (!srgb) throw std::bad_alloc();
    const cmsUInt32Number flags = cmsFLAGS_BLACKPOINTCOMPENSATION | cmsFLAGS_NOCACHE | more;
    return {cmsCreateTransform(from, codes, srgb.get(), TYPE_RGB_8, INTENT_RELATIVE_COLORIMETRIC, flags), &cmsDeleteTransform};
}

Opened open(const Profile& profile) {
    return {cmsOpenProfileFromMem(profile->data(), static_cast<cmsUInt32Number>(profile->size())), &cmsCloseProfile};
}

/// Whether no colour would change by more than a code: many files carry a profile that is sRGB by another name.
bool changes_nothing(cmsHTRANSFORM t, bool grey) {
    constexpr int steps = 18, step = 15; // 0, 15, ... 255
    const auto same = [&](std::array<std::uint8_t, 3> code) {
        std::array<std::uint8_t, 3> out{};
        cmsDoTransform(t, code.data(), out.data(), 1);
        for (int c = 0; c < 3; ++c)
            if (std::abs(out[c] - code[c]) > 1) return false;
        return true;
    };
    for (int r = 0; r < steps; ++r)
        for (int g = grey ? r : 0; g < (grey ? r + 1 : steps); ++g)
            for (int b = grey ? r : 0; b < (grey ? r + 1 : steps); ++b)
                if (!same({static_cast<std::uint8_t>(r * step), static_cast<std::uint8_t>(g * step),
                           static_cast<std::uint8_t>(b * step)}))
                    return false;
    return true;
}

void convert(Picture& picture, cmsHTRANSFORM to) {
    for_rows(picture.height, static_cast<long>(picture.width) * picture.height, [&](int y) {
        std::uint8_t* row = picture.at(0, y);
        const std::vector<std::uint8_t> from(row, row + 3 * static_cast<std::size_t>(picture.width));
        cmsDoTransform(to, from.data(), row, static_cast<cmsUInt32Number>(picture.width));
    });
}

void convert_grey(Picture& picture, cmsHTRANSFORM to) {
    std::uint8_t codes[256], of_grey[256][3];
    std::iota(std::begin(codes), std::end(codes), std::uint8_t{0});
    cmsDoTransform(to, codes, of_grey, 256);
    for_rows(picture.height, static_cast<long>(picture.width) * picture.height, [&](int y) {
        std::uint8_t* row = picture.at(0, y);
        for (int x = 0; x < picture.width; ++x) std::copy_n(of_grey[row[3 * x]], 3, row + 3 * x);
    });
}

void convert_deep(Picture& picture, const DeepRow& deep, cmsHTRANSFORM to, bool grey) {
    for_rows(picture.height, static_cast<long>(picture.width) * picture.height, [&](int y) {
        std::vector<std::uint16_t> from(3 * static_cast<std::size_t>(picture.width));
        deep(y, from.data());
        for (int x = 0; grey && x < picture.width; ++x) from[x] = from[3 * x];
        cmsDoTransform(to, from.data(), picture.at(0, y), static_cast<cmsUInt32Number>(picture.width));
    });
}

} // namespace

std::string to_srgb(Picture& picture, const Profile& profile, Samples samples, const DeepRow& deep) {
    if (!profile) return {};
    const Opened opened = open(profile);
    if (!opened) return unreadable;
    // A grey picture may carry a profile for colours: its grey is that of three equal codes.
    const bool grey = cmsGetColorSpace(opened.get()) == cmsSigGrayData;
    const bool fits = cmsGetColorSpace(opened.get()) == cmsSigRgbData || (grey && samples == Samples::grey);
    if (!fits) return of_another_kind;
    // The library's short ways are a code off for colours, two for greys, of which there are few, and more for 16 bits:
    // these go the long way.
    const Transform to = transform(opened.get(), grey ? TYPE_GRAY_8 : TYPE_RGB_8, grey ? cmsFLAGS_NOOPTIMIZE : 0);
    if (!to) return unreadable;
    if (changes_nothing(to.get(), grey)) return {};
    if (deep) {
        const Transform from_deep = transform(opened.get(), grey ? TYPE_GRAY_16 : TYPE_RGB_16, cmsFLAGS_NOOPTIMIZE);
        if (!from_deep) return unreadable;
        convert_deep(picture, deep, from_deep.get(), grey);
    } else if (grey) {
        convert_grey(picture, to.get());
    } else {
        convert(picture, to.get());
    }
    return {};
}

std::string inks_to_srgb(Picture& picture, Bytes cmyk, int none, const Profile& profile) {
    if (!profile) return "its colours are printing inks (CMYK) without a profile: taken as plain inks";
    const Opened opened = open(profile);
    if (!opened) return unreadable_inks;
    if (cmsGetColorSpace(opened.get()) != cmsSigCmykData) return inks_of_another_kind;
    const Transform to = transform(opened.get(), none == 255 ? TYPE_CMYK_8_REV : TYPE_CMYK_8);
    if (!to) return unreadable_inks;
    const auto width = static_cast<std::size_t>(picture.width);
    for_rows(picture.height, static_cast<long>(width) * picture.height, [&](int y) {
        cmsDoTransform(to.get(), cmyk.data() + 4 * width * y, picture.at(0, y), static_cast<cmsUInt32Number>(width));
    });
    return {};
}

} // namespace tidemark::grid
