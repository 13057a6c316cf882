// Source: IEC 61966-2-1:1999. The table of colours is computed with its four-decimal matrix and the white 95.047,
// 100, 108.883. Ours is exact and scaled to the white of the 16 bands: up to 0.02 in a*, and in b* 0.03, because the
// standard's 0.0193 for red in Z is rounded by up to 0.3 %.
#include "colour/lab.h"
#include "support/published.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <lcms2.h>
#include <random>

using namespace tidemark;
using colour::Srgb8;
using published::Check;

TEST_CASE("the sRGB transfer curve is that of IEC 61966-2-1", "[published][colour]") {
    const double table[][2] = {{0, 0},
                               {1, 0.000303527},
                               {10, 0.003035270},
                               {11, 0.003346536},
                               {64, 0.051269458},
                               {119, 0.184474995},
                               {128, 0.215860500},
                               {188, 0.502886458},
                               {254, 0.991102097},
                               {255, 1}};
    for (const auto& [code, linear] : table) {
        Check{"transfer curve of a screen", "IEC 61966-2-1"}.near(linear, colour::linear_from_srgb(code / 255), 1e-9);
        CHECK(colour::srgb_from_linear(linear) == Approx(code / 255).margin(1e-6)); // the two thresholds are rounded
    }
    const Check grey{"lightness L* of the greys 128 and 119", "IEC 61966-2-1, CIE 1976"};
    grey.near(53.585, colour::lstar_from_srgb({128, 128, 128}), 1e-3);
    grey.near(50.034, colour::lstar_from_srgb({119, 119, 119}), 1e-3);
}

TEST_CASE("every sRGB code comes back from XYZ", "[published][colour]") {
    const auto same = [](Srgb8 c) {
        const Srgb8 back = colour::srgb_from(colour::xyz_from_srgb(c));
        return back.r == c.r && back.g == c.g && back.b == c.b;
    };
    for (int k = 0; k < 256; ++k) {
        const auto code = static_cast<std::uint8_t>(k), other = static_cast<std::uint8_t>((k * 89 + 17) & 255);
        INFO("code " << k);
        CHECK(same({code, code, code}));
        CHECK(same({code, other, 0}));
        CHECK(same({255, code, other}));
    }
}

TEST_CASE("a colour between two codes goes to the nearer one", "[colour]") {
    const colour::Xyz white = colour::xyz_from_srgb({255, 255, 255});
    for (int k = 0; k < 255; ++k)
        for (const double part : {0.49, 0.51}) {
            const double grey = colour::linear_from_srgb((k + part) / 255);
            const int code = colour::srgb_from({grey * white.X, grey * white.Y, grey * white.Z}).g;
            INFO(k + part);
            CHECK(code == (part < 0.5 ? k : k + 1));
        }
}

TEST_CASE("a colour outside the gamut is clipped, channel by channel", "[colour]") {
    const Srgb8 bright = colour::srgb_from({200, 200, 200}), none = colour::srgb_from({-5, -5, -5});
    CHECK((bright.r == 255 && bright.g == 255 && bright.b == 255));
    CHECK((none.r == 0 && none.g == 0 && none.b == 0));
    CHECK(colour::srgb_from({10, 40, 5}).r == 0); // a green no screen shows
}

TEST_CASE("sRGB colours have the L*a*b* of the standard's matrix", "[published][colour]") {
    struct Row {
        Srgb8 c;
        double L, a, b;
    };
    const Row rows[] = {{{255, 255, 255}, 100, 0.005, -0.010},    {{0, 0, 0}, 0, 0, 0},
                        {{255, 0, 0}, 53.233, 80.109, 67.220},    {{0, 255, 0}, 87.737, -86.185, 83.181},
                        {{0, 0, 255}, 32.303, 79.197, -107.864},  {{0, 255, 255}, 91.117, -48.080, -14.138},
                        {{255, 0, 255}, 60.320, 98.254, -60.843}, {{255, 255, 0}, 97.138, -21.556, 94.482},
                        {{128, 128, 128}, 53.585, 0.003, -0.006}, {{200, 120, 40}, 57.909, 25.299, 54.083},
                        {{30, 60, 120}, 26.343, 11.366, -37.600}, {{240, 230, 210}, 91.582, 0.090, 10.945}};
    for (const Row& row : rows) {
        const colour::Lab lab = colour::lab_from_srgb(row.c);
        INFO(int(row.c.r) << ' ' << int(row.c.g) << ' ' << int(row.c.b));
        Check{"L* of twelve screen colours", "IEC 61966-2-1, CIE 1976"}.near(row.L, lab.L, 0.02);
        Check{"a* of twelve screen colours", "IEC 61966-2-1, CIE 1976"}.near(row.a, lab.a, 0.02);
        Check{"b* of twelve screen colours", "IEC 61966-2-1, CIE 1976"}.near(row.b, lab.b, 0.03);
        CHECK(colour::lstar_from_srgb(row.c) == Approx(lab.L).margin(1e-4));
    }
}

TEST_CASE("a neutral has no hue at all", "[colour]") {
    for (int k = 0; k < 256; ++k) {
        const auto code = static_cast<std::uint8_t>(k);
        const colour::Lab lab = colour::lab_from_srgb({code, code, code});
        CHECK(std::abs(lab.a) < 1e-9);
        CHECK(std::abs(lab.b) < 1e-9);
    }
}

// lcms2's L*a*b* belongs to D50: neutrals are compared in L* only. Its profile keeps numbers to 1/65536.
TEST_CASE("greys have the L* that lcms2 gives them", "[published][colour]") {
    const cmsHPROFILE srgb = cmsCreate_sRGBProfile(), lab = cmsCreateLab4Profile(nullptr);
    const cmsHTRANSFORM transform =
        cmsCreateTransform(srgb, TYPE_RGB_DBL, lab, TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    REQUIRE(transform != nullptr);
    for (int k = 0; k < 256; ++k) {
        const std::array<double, 3> rgb{k / 255.0, k / 255.0, k / 255.0};
        cmsCIELab theirs{};
        cmsDoTransform(transform, rgb.data(), &theirs, 1);
        const auto code = static_cast<std::uint8_t>(k);
        INFO("code " << k);
        Check{"lightness L* of all greys against another program", "lcms2"}.near(
            theirs.L, colour::lstar_from_srgb({code, code, code}), 0.01);
    }
    cmsDeleteTransform(transform);
    cmsCloseProfile(srgb);
    cmsCloseProfile(lab);
}

// lcms2 knows sRGB by D50: brought to D65 with our Bradford matrix, which a wrong one would not survive. What is left are
// its profile's numbers of 16 bits.
TEST_CASE("ten thousand screen colours have the L*a*b* that lcms2 gives them", "[published][colour]") {
    const cmsHPROFILE srgb = cmsCreate_sRGBProfile(), xyz = cmsCreateXYZProfile();
    const cmsHTRANSFORM transform =
        cmsCreateTransform(srgb, TYPE_RGB_DBL, xyz, TYPE_XYZ_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    REQUIRE(transform != nullptr);
    std::mt19937 random(1);
    double worst = 0;
    for (int k = 0; k < 10000; ++k) {
        const auto code = [&] { return static_cast<std::uint8_t>(random() % 256); };
        const Srgb8 c{code(), code(), code()};
        const std::array<double, 3> rgb{c.r / 255.0, c.g / 255.0, c.b / 255.0};
        cmsCIEXYZ theirs{};
        cmsDoTransform(transform, rgb.data(), &theirs, 1);
        const colour::Lab a = colour::lab_from(
            colour::adapted_to_d65({100 * theirs.X, 100 * theirs.Y, 100 * theirs.Z}, colour::Light::D50));
        const colour::Lab b = colour::lab_from_srgb(c);
        worst = std::max(worst, colour::delta_e_2000(a, b));
    }
    Check{"L*a*b* of 10 000 screen colours against another program, largest ΔE00", "lcms2"}.at_most(0.01, worst);
    cmsDeleteTransform(transform);
    cmsCloseProfile(srgb);
    cmsCloseProfile(xyz);
}
