// Colours under an embedded profile are brought to sRGB.
#include <lcms2.h>
#include <zlib.h>

#include <catch2/catch.hpp>
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <numeric>

#include "grid/picture.h"
#include "support/jpeg_builder.h"
#include "support/png_builder.h"
#include "support/temporary_folder.h"

using namespace tidemark;
using tests::Bytes;

namespace {

struct Close {
    void operator()(void* p) const { cmsCloseProfile(p); }
};
using Opened = std::unique_ptr<void, Close>;

Opened rgb_profile(const cmsCIExyYTRIPLE& primaries, double gamma) {
    const cmsCIExyY d65{0.3127, 0.3290, 1};
    cmsToneCurve* curve = cmsBuildGamma(nullptr, gamma);
    cmsToneCurve* curves[3] = {curve, curve, curve};
    Opened profile(cmsCreateRGBProfile(&d65, &primaries, curves));
    cmsFreeToneCurve(curve);
    return profile;
}

/// Primaries far outside sRGB's, those of ITU-R BT.2020; gamma 2.2.
Opened wide() { return rgb_profile({{0.708, 0.292, 1}, {0.170, 0.797, 1}, {0.131, 0.046, 1}}, 2.2); }

/// The primaries of sRGB itself (IEC 61966-2-1), with another gamma.
Opened narrow(double gamma) { return rgb_profile({{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}}, gamma); }

Opened grey_profile(double gamma) {
    const cmsCIExyY d65{0.3127, 0.3290, 1};
    cmsToneCurve* curve = cmsBuildGamma(nullptr, gamma);
    Opened profile(cmsCreateGrayProfile(&d65, curve));
    cmsFreeToneCurve(curve);
    return profile;
}

Bytes saved(const Opened& profile) {
    cmsUInt32Number size = 0;
    REQUIRE(cmsSaveProfileToMem(profile.get(), nullptr, &size));
    Bytes bytes(size);
    REQUIRE(cmsSaveProfileToMem(profile.get(), bytes.data(), &size));
    return bytes;
}

const std::string_view label("ICC_PROFILE\0", 12);

/// The profile in so many APP2 segments, the last one in front.
Bytes with_profile(Bytes jpeg, const Bytes& profile, int pieces = 1) {
    for (int k = 0; k < pieces; ++k) {
        const auto begin = profile.begin() + static_cast<long>(profile.size()) * k / pieces;
        Bytes content{static_cast<std::uint8_t>(k + 1), static_cast<std::uint8_t>(pieces)};
        content.insert(content.end(), begin, profile.begin() + static_cast<long>(profile.size()) * (k + 1) / pieces);
        jpeg = tests::with_segment(jpeg, 0xE2, label, content);
    }
    return jpeg;
}

/// The PNG with an iCCP chunk behind its header.
Bytes with_chunk(const Bytes& png, const Bytes& content, std::string_view type = "iCCP") {
    Bytes out(png.begin(), png.begin() + 33);
    tests::put_chunk(out, type, content);
    out.insert(out.end(), png.begin() + 33, png.end());
    return out;
}

Bytes packed(const Bytes& profile) {
    uLongf size = compressBound(profile.size());
    Bytes z(size);
    REQUIRE(compress(z.data(), &size, profile.data(), profile.size()) == Z_OK);
    z.resize(size);
    const std::string_view head("wide\0\0", 6);
    z.insert(z.begin(), head.begin(), head.end());
    return z;
}

/// 64 × 64: many colours, dull and vivid, in flat squares of 8 pixels, so that a JPEG keeps them nearly.
Bytes squares() {
    Bytes rgb;
    for (int y = 0; y < 64; ++y)
        for (int x = 0; x < 64; ++x)
            for (const int code : {x / 8 * 36, y / 8 * 36, (x / 8 * 5 + y / 8 * 3) % 8 * 36})
                rgb.push_back(static_cast<std::uint8_t>(code));
    return rgb;
}

/// lcms2's own conversion in floating point, from the codes that a reader without a profile sees.
Bytes converted(const Bytes& codes, const Opened& from, bool grey = false) {
    const Opened srgb(cmsCreate_sRGBProfile());
    const cmsHTRANSFORM t =
        cmsCreateTransform(from.get(), grey ? TYPE_GRAY_DBL : TYPE_RGB_DBL, srgb.get(), TYPE_RGB_DBL,
                           INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_BLACKPOINTCOMPENSATION | cmsFLAGS_NOOPTIMIZE);
    REQUIRE(t != nullptr);
    Bytes out;
    for (std::size_t k = 0; k < codes.size(); k += 3) {
        const double in[3] = {codes[k] / 255.0, codes[k + 1] / 255.0, codes[k + 2] / 255.0};
        double rgb[3];
        cmsDoTransform(t, in, rgb, 1);
        for (const double v : rgb) out.push_back(static_cast<std::uint8_t>(std::lround(255 * std::clamp(v, 0.0, 1.0))));
    }
    cmsDeleteTransform(t);
    return out;
}

int furthest(const Bytes& a, const Bytes& b) {
    REQUIRE(a.size() == b.size());
    int most = 0;
    for (std::size_t k = 0; k < a.size(); ++k) most = std::max(most, std::abs(a[k] - b[k]));
    return most;
}

struct Reads {
    tests::TemporaryFolder folder;
    grid::Photograph operator()(const Bytes& bytes) const { return grid::read_photograph(folder.put("p", bytes)); }
};

const std::string unreadable = "its colour profile could not be read and was ignored: taken as sRGB";
const std::string of_another_kind =
    "its colour profile is not one for its kind of colours and was ignored: taken as sRGB";

} // namespace

TEST_CASE("a wide profile's colours are read as lcms2 converts them", "[law][grid]") {
    const Reads read;
    const Bytes jpeg = tests::jpeg_of(squares(), 64, 64, TJPF_RGB, TJSAMP_444);
    const Bytes codes = read(jpeg).picture.rgb, expected = converted(codes, wide());
    CHECK(furthest(codes, expected) > 40); // else this would tell nothing
    for (const int pieces : {1, 2, 7}) {
        const grid::Photograph p = read(with_profile(jpeg, saved(wide()), pieces));
        CHECK(p.note.empty());
        CHECK(furthest(p.picture.rgb, expected) <= 1);
    }
    const grid::Picture drawn{64, 64, squares()};
    const grid::Photograph png = read(with_chunk(grid::png_bytes(drawn), packed(saved(wide()))));
    CHECK(png.note.empty());
    CHECK(furthest(png.picture.rgb, converted(drawn.rgb, wide())) <= 1);
}

namespace {

/// A row of codes of 16 bits as a PNG; `channels` 1 or 3.
Bytes deep_png(const std::vector<std::uint16_t>& codes, int channels) {
    Bytes row{0};
    for (const std::uint16_t v : codes)
        row.push_back(static_cast<std::uint8_t>(v >> 8)), row.push_back(static_cast<std::uint8_t>(v & 255));
    return tests::png_of(static_cast<std::uint32_t>(codes.size()) / channels, 1, 16, channels == 3 ? 2 : 0, row);
}

int code_of_light(double light) { // IEC 61966-2-1
    return static_cast<int>(std::lround(255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055)));
}

} // namespace

TEST_CASE("16 bits keep their steps until the profile is applied", "[law][grid]") {
    const Reads read;
    std::vector<std::uint16_t> ramp; // linear light: the darks, where 8 bits have a step for ten codes of sRGB
    for (int k = 0; k < 1000; ++k) ramp.push_back(static_cast<std::uint16_t>(3 * k));
    std::vector<std::uint16_t> colours;
    for (const std::uint16_t v : ramp) colours.insert(colours.end(), {v, v, v});
    const auto far_off = [&](const Bytes& png, const Opened& profile) {
        const grid::Photograph p = read(with_chunk(png, packed(saved(profile))));
        CHECK(p.note.empty());
        REQUIRE(p.picture.width == 1000);
        int most = 0;
        for (int x = 0; x < 1000; ++x)
            for (int c = 0; c < 3; ++c)
                most = std::max(most, std::abs(p.picture.at(x, 0)[c] - code_of_light(ramp[x] / 65535.0)));
        return most;
    };
    CHECK(far_off(deep_png(colours, 3), narrow(1)) <= 1);
    CHECK(far_off(deep_png(ramp, 1), grey_profile(1)) <= 1);
}

TEST_CASE("16 bits without a profile are rounded to 8, not cut off", "[law][grid]") {
    const Reads read;
    const grid::Picture p = read(deep_png({0, 128, 129, 257 * 100 + 128, 257 * 100 + 129, 65535}, 1)).picture;
    const int expected[] = {0, 0, 1, 100, 101, 255};
    for (int x = 0; x < 6; ++x) CHECK(p.at(x, 0)[1] == expected[x]);
}

TEST_CASE("a profile that differs from sRGB in its gamma alone is undone in closed form", "[law][grid]") {
    const Reads read;
    grid::Picture ramp{256, 2, {}};
    for (int k = 0; k < 512; ++k)
        for (const int code : {k % 256, 255 - k % 256, k / 256 * 90}) ramp.rgb.push_back(static_cast<std::uint8_t>(code));
    for (const double gamma : {1.0, 1.8}) {
        const Bytes seen = read(with_chunk(grid::png_bytes(ramp), packed(saved(narrow(gamma))))).picture.rgb;
        int most = 0;
        for (std::size_t k = 0; k < seen.size(); ++k) {
            const double light = std::pow(ramp.rgb[k] / 255.0, gamma); // IEC 61966-2-1
            const double code = light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
            most = std::max(most, std::abs(seen[k] - static_cast<int>(std::lround(255 * code))));
        }
        CHECK(most <= 1);
    }
}

TEST_CASE("a profile that is sRGB by another name changes nothing", "[law][grid]") {
    const Reads read;
    const Bytes jpeg = tests::jpeg_of(squares(), 64, 64, TJPF_RGB, TJSAMP_420);
    const grid::Photograph p = read(with_profile(jpeg, saved(Opened(cmsCreate_sRGBProfile())), 3));
    CHECK(p.note.empty());
    CHECK(p.picture.rgb == read(jpeg).picture.rgb);
}

TEST_CASE("a grey photograph's own profile is applied", "[law][grid]") {
    const Reads read;
    Bytes ramp(64 * 64);
    std::iota(ramp.begin(), ramp.end(), std::uint8_t{0});
    const Bytes jpeg = tests::jpeg_of(ramp, 64, 64, TJPF_GRAY, TJSAMP_GRAY);
    const Bytes codes = read(jpeg).picture.rgb;
    const grid::Photograph grey = read(with_profile(jpeg, saved(grey_profile(1.4))));
    CHECK(grey.note.empty());
    CHECK(furthest(grey.picture.rgb, codes) > 40);
    CHECK(furthest(grey.picture.rgb, converted(codes, grey_profile(1.4), true)) <= 1);
    // Many programs leave the profile of the colours in a picture they made grey.
    const grid::Photograph colour = read(with_profile(jpeg, saved(wide())));
    CHECK(colour.note.empty());
    CHECK(furthest(colour.picture.rgb, converted(codes, wide())) <= 1);
}

TEST_CASE("a profile that is no use leaves the picture as it is, and that is said", "[wrong][grid]") {
    const Reads read;
    const Bytes jpeg = tests::jpeg_of(squares(), 64, 64, TJPF_RGB, TJSAMP_420), plain = read(jpeg).picture.rgb;
    const Bytes profile = saved(wide());
    const auto ignored = [&](const Bytes& bytes, const std::string& note) {
        const grid::Photograph p = read(bytes);
        CHECK(p.note == note);
        CHECK(p.picture.rgb == plain);
    };
    ignored(with_profile(jpeg, {}), unreadable);
    ignored(with_profile(jpeg, Bytes(300, 0xFF)), unreadable);
    ignored(with_profile(jpeg, Bytes(profile.begin(), profile.begin() + 200)), unreadable);
    ignored(with_profile(jpeg, saved(grey_profile(2.2))), of_another_kind);
    ignored(tests::with_segment(jpeg, 0xE2, label, {}), unreadable);
    ignored(tests::with_segment(jpeg, 0xE2, label, {1}), unreadable);
    ignored(tests::with_segment(jpeg, 0xE2, label, {1, 2}), unreadable); // the second is missing
    ignored(tests::with_segment(with_profile(jpeg, profile), 0xE2, label, {1, 1}), unreadable);
    Bytes zeroth = profile;
    zeroth.insert(zeroth.begin(), {0, 1});
    ignored(tests::with_segment(jpeg, 0xE2, label, zeroth), unreadable);
}

namespace {

/// A press whose inks darken less than plain ones and lean to a colour.
int printed(const cmsUInt16Number in[], cmsUInt16Number out[], void*) {
    const double c = in[0] / 65535.0, m = in[1] / 65535.0, y = in[2] / 65535.0, k = in[3] / 65535.0;
    const cmsCIELab lab{(1 - 0.8 * k) * (96 - 30 * c - 35 * m - 8 * y), (1 - k) * (50 * m - 25 * c), (1 - k) * (60 * y - 30 * c)};
    cmsFloat2LabEncoded(out, &lab);
    return 1;
}

Opened ink_profile() {
    Opened profile(cmsCreateProfilePlaceholder(nullptr));
    cmsSetDeviceClass(profile.get(), cmsSigOutputClass);
    cmsSetColorSpace(profile.get(), cmsSigCmykData);
    cmsSetPCS(profile.get(), cmsSigLabData);
    cmsPipeline* lut = cmsPipelineAlloc(nullptr, 4, 3);
    cmsStage* table = cmsStageAllocCLut16bit(nullptr, 9, 4, 3, nullptr);
    REQUIRE(cmsStageSampleCLut16bit(table, printed, nullptr, 0));
    cmsPipelineInsertStage(lut, cmsAT_BEGIN, cmsStageAllocToneCurves(nullptr, 4, nullptr));
    cmsPipelineInsertStage(lut, cmsAT_END, table);
    cmsPipelineInsertStage(lut, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
    REQUIRE(cmsWriteTag(profile.get(), cmsSigAToB0Tag, lut));
    REQUIRE(cmsWriteTag(profile.get(), cmsSigMediaWhitePointTag, cmsD50_XYZ()));
    cmsPipelineFree(lut);
    return profile;
}

} // namespace

TEST_CASE("printing inks are read by their own profile", "[law][grid]") {
    const Reads read;
    Bytes inks; // flat squares of 8 pixels; libjpeg writes Adobe's marker with inks, and with it 255 stands for none
    for (int y = 0; y < 32; ++y)
        for (int x = 0; x < 32; ++x)
            inks.insert(inks.end(), {static_cast<std::uint8_t>(255 - x / 8 * 60), static_cast<std::uint8_t>(255 - y / 8 * 60),
                                     static_cast<std::uint8_t>(75 + (x / 8 + y / 8) % 4 * 60), static_cast<std::uint8_t>(255 - x / 16 * 100)});
    const Bytes jpeg = tests::jpeg_of(inks, 32, 32, TJPF_CMYK, TJSAMP_444);
    const grid::Photograph p = read(with_profile(jpeg, saved(ink_profile())));
    CHECK(p.note.empty());
    const Opened srgb(cmsCreate_sRGBProfile()), from = ink_profile();
    const cmsHTRANSFORM t = cmsCreateTransform(from.get(), TYPE_CMYK_DBL, srgb.get(), TYPE_RGB_DBL, INTENT_RELATIVE_COLORIMETRIC,
                                               cmsFLAGS_BLACKPOINTCOMPENSATION | cmsFLAGS_NOOPTIMIZE);
    REQUIRE(t != nullptr);
    Bytes expected;
    for (std::size_t k = 0; k < inks.size(); k += 4) {
        double in[4], out[3];
        for (int c = 0; c < 4; ++c) in[c] = 100 - inks[k + c] / 2.55;
        cmsDoTransform(t, in, out, 1);
        for (const double v : out) expected.push_back(static_cast<std::uint8_t>(std::lround(255 * std::clamp(v, 0.0, 1.0))));
    }
    cmsDeleteTransform(t);
    CHECK(furthest(p.picture.rgb, expected) <= 4); // the JPEG itself is two off
    CHECK(furthest(read(jpeg).picture.rgb, expected) > 20);
}

TEST_CASE("inks without a profile of use are taken as plain ones, and that is said", "[wrong][grid]") {
    const Reads read;
    Bytes inks;
    for (int k = 0; k < 256; ++k) inks.insert(inks.end(), {255, 128, 64, 200});
    const Bytes jpeg = tests::jpeg_of(inks, 16, 16, TJPF_CMYK, TJSAMP_444), plain = read(jpeg).picture.rgb;
    CHECK(read(jpeg).note == "its colours are printing inks (CMYK) without a profile: taken as plain inks");
    const auto ignored = [&](const Bytes& profile, const std::string& note) {
        const grid::Photograph p = read(with_profile(jpeg, profile));
        CHECK(p.note == note);
        CHECK(p.picture.rgb == plain);
    };
    ignored(saved(wide()), "its colour profile is not one for printing inks (CMYK) and was ignored: they are taken as plain inks");
    ignored(Bytes(300, 0xFF), "its colour profile could not be read and was ignored: its printing inks (CMYK) are taken as plain inks");
}

TEST_CASE("a PNG's profile is unpacked with care", "[wrong][grid]") {
    const Reads read;
    const grid::Picture drawn{64, 64, squares()};
    const Bytes png = grid::png_bytes(drawn), good = packed(saved(wide()));
    const auto ignored = [&](const Bytes& content) {
        const grid::Photograph p = read(with_chunk(png, content));
        CHECK(p.note == unreadable);
        CHECK(p.picture.rgb == drawn.rgb);
    };
    for (const std::size_t length : {std::size_t{0}, std::size_t{1}, std::size_t{4}, std::size_t{5}, std::size_t{6},
                                     good.size() / 2, good.size() - 1})
        ignored(Bytes(good.begin(), good.begin() + static_cast<long>(length)));
    ignored(Bytes(200, 'n'));                               // a name without an end
    ignored(Bytes(good.begin() + 4, good.end()));           // no name
    Bytes other = good;
    other[5] = 1; // an unknown way of packing
    ignored(other);
    Bytes swollen = saved(wide()); // 20 MB, which pack to 20 kB
    swollen.resize(20 << 20);
    ignored(packed(swollen));
    Bytes bent = with_chunk(png, good);
    bent[33 + 8 + 40] ^= 1; // the checksum knows
    CHECK(read(bent).note == unreadable);
    CHECK(read(bent).picture.rgb == drawn.rgb);
}

TEST_CASE("a profile with any byte spoilt is used or passed over, never a crash", "[wrong][grid]") {
    const Reads read;
    const Bytes jpeg = tests::jpeg_of(tests::quarters(), 48, 32, TJPF_RGB, TJSAMP_444), profile = saved(wide());
    for (std::size_t at = 0; at < profile.size(); ++at) {
        Bytes bent = profile;
        bent[at] = static_cast<std::uint8_t>(~bent[at]);
        const grid::Photograph p = read(with_profile(jpeg, bent));
        CHECK((p.note.empty() || p.note == unreadable || p.note == of_another_kind));
    }
}

TEST_CASE("the grey values of a mask are numbers, whatever profile it carries", "[law][grid]") {
    const tests::TemporaryFolder folder;
    const Bytes jpeg = tests::jpeg_of(squares(), 64, 64, TJPF_RGB, TJSAMP_444);
    CHECK(grid::read_grey(folder.put("p", with_profile(jpeg, saved(wide())))).value ==
          grid::read_grey(folder.put("q", jpeg)).value);
    const Bytes png = grid::png_bytes(grid::Picture{64, 64, squares()});
    CHECK(grid::read_grey(folder.put("p", with_chunk(png, packed(saved(wide()))))).value ==
          grid::read_grey(folder.put("q", png)).value);
}
