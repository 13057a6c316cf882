// Sources: CIE 15 (D50: 96.42, 100, 82.51, a sum over 5 nm; x, y 0.3457, 0.3585); ICC.1 (profile connection space: 96.42,
// 100, 82.49, the same white rounded otherwise; the linear Bradford transform). lcms2 has its own of both. Weights by
// 1 nm give a Z that is 0.008 less than that by 5 nm, as they do in D65 (108.861 and 108.880).
#include "colour/lab.h"
#include "colour/observer_detail.h"
#include "support/published.h"

#include <array>
#include <catch2/catch.hpp>
#include <lcms2.h>

using namespace tidemark;
using colour::Lab;
using colour::Light;
using colour::Xyz;
using published::Check;

namespace {

colour::Reflectance flat(float r) {
    colour::Reflectance out;
    out.at.fill(r);
    return out;
}

cmsCIEXYZ theirs(const Xyz& c) { return {c.X / 100, c.Y / 100, c.Z / 100}; }

/// Colours of all kinds, as shares of the white.
template <class F> void for_colours(const F& f) {
    for (const double X : {0.02, 0.2, 0.5, 0.9})
        for (const double Y : {0.01, 0.3, 0.8})
            for (const double Z : {0.005, 0.25, 0.6, 1.0}) f(Xyz{96.4 * X, 100 * Y, 82.5 * Z});
}

} // namespace

TEST_CASE("a perfect white has the tristimulus values of D50", "[published][colour]") {
    const Xyz white = colour::xyz_from(flat(1), Light::D50);
    const Check tristimulus{"X, Y, Z of a perfect white in D50", "CIE 15"};
    tristimulus.near(96.42, white.X, 0.01);
    tristimulus.near(100, white.Y, 1e-4);
    tristimulus.near(82.51, white.Z, 0.01);
    const Check chromaticity{"x, y of D50", "CIE 15"}; // four decimals
    chromaticity.near(0.3457, white.X / (white.X + white.Y + white.Z), 6e-5);
    chromaticity.near(0.3585, white.Y / (white.X + white.Y + white.Z), 6e-5);
    const Check icc{"X, Z of the white of profiles", "ICC.1, lcms2"}; // 0.01: rounded to 1/10000 of Y, and the step
    icc.near(100 * cmsD50_XYZ()->X, white.X, 0.015);
    icc.near(100 * cmsD50_XYZ()->Z, white.Z, 0.015);
}

TEST_CASE("a grey is neutral in D50, and a grey on the screen", "[colour]") {
    for (const float r : {0.02f, 0.18f, 0.5f, 0.9f, 1.0f}) {
        const Xyz seen = colour::xyz_from(flat(r), Light::D50), usual = colour::xyz_from(flat(r));
        const Lab lab = colour::lab_from(seen, Light::D50);
        CHECK(std::abs(lab.a) < 0.002);
        CHECK(std::abs(lab.b) < 0.002);
        CHECK(lab.L == Approx(colour::lab_from(usual).L).margin(1e-4));
        const colour::Srgb8 warm = colour::srgb_from(seen, Light::D50), cool = colour::srgb_from(usual);
        CHECK((warm.r == cool.r && warm.g == cool.g && warm.b == cool.b));
    }
}

TEST_CASE("L*a*b* in D50 are those of lcms2", "[published][colour]") {
    const cmsCIEXYZ white = theirs(colour::white_of(Light::D50));
    for_colours([&](const Xyz& c) {
        cmsCIELab lab{};
        const cmsCIEXYZ xyz = theirs(c);
        cmsXYZ2Lab(&white, &lab, &xyz);
        const Lab ours = colour::lab_from(c, Light::D50);
        const Check check{"L*, a*, b* in D50 against another program, 48 colours", "lcms2"};
        check.near(lab.L, ours.L, 1e-6);
        check.near(lab.a, ours.a, 1e-6);
        check.near(lab.b, ours.b, 1e-6);
    });
}

TEST_CASE("an eye used to D50 is brought to D65 as lcms2 does it", "[published][colour]") {
    const cmsCIEXYZ from = theirs(colour::white_of(Light::D50)), to = theirs(colour::white_of(Light::D65));
    for_colours([&](const Xyz& c) {
        cmsCIEXYZ adapted{};
        const cmsCIEXYZ xyz = theirs(c);
        REQUIRE(cmsAdaptToIlluminant(&adapted, &from, &to, &xyz));
        const Xyz ours = colour::adapted_to_d65(c, Light::D50);
        const Check check{"X, Y, Z in D65 of colours seen in D50, 48 colours", "ICC.1 (Bradford), lcms2"};
        check.near(100 * adapted.X, ours.X, 1e-6);
        check.near(100 * adapted.Y, ours.Y, 1e-6);
        check.near(100 * adapted.Z, ours.Z, 1e-6);
        const Xyz same = colour::adapted_to_d65(c, Light::D65);
        CHECK((same.X == c.X && same.Y == c.Y && same.Z == c.Z));
    });
}

// The whole way through the profiles of another program: L*a*b* in D50 to codes. Half a code by rounding, and half for
// the rounded matrices of its profile.
TEST_CASE("what is seen in D50 has the screen codes of lcms2", "[published][colour]") {
    const cmsHPROFILE srgb = cmsCreate_sRGBProfile(), lab = cmsCreateLab4Profile(nullptr);
    const cmsHTRANSFORM transform =
        cmsCreateTransform(lab, TYPE_Lab_DBL, srgb, TYPE_RGB_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    REQUIRE(transform != nullptr);
    int within_gamut = 0;
    const auto compare = [&](const Xyz& c) {
        const Lab ours = colour::lab_from(c, Light::D50);
        const cmsCIELab given{ours.L, ours.a, ours.b};
        std::array<double, 3> rgb{};
        cmsDoTransform(transform, &given, rgb.data(), 1);
        for (const double v : rgb)
            if (v < 0.002 || v > 0.998) return; // clipped there or here
        ++within_gamut;
        const colour::Srgb8 code = colour::srgb_from(c, Light::D50);
        const Check check{"screen codes of colours seen in D50", "ICC.1, IEC 61966-2-1, lcms2"};
        check.near(255 * rgb[0], code.r, 1);
        check.near(255 * rgb[1], code.g, 1);
        check.near(255 * rgb[2], code.b, 1);
    };
    for (const double Y : {0.05, 0.2, 0.5, 0.8})
        for (const double red : {0.9, 1.0, 1.15})
            for (const double blue : {0.4, 0.8, 1.0, 1.2}) compare({96.4 * Y * red, 100 * Y, 82.5 * Y * blue});
    CHECK(within_gamut > 30);
    cmsDeleteTransform(transform);
    cmsCloseProfile(srgb);
    cmsCloseProfile(lab);
}
