// JPEG: what a camera or telephone writes.
#include <catch2/catch.hpp>
#include <cmath>

#include "grid/picture.h"
#include "grid/problem.h"
#include "support/jpeg_builder.h"
#include "support/temporary_folder.h"

using namespace tidemark;
using grid::Picture;
using namespace tests;

TEST_CASE("a photograph is turned the way its camera was held", "[law][grid]") {
    // Orientation as in CIPA DC-008: where the first stored row and column lie in the scene.
    const std::pair<int, const char*> scenes[] = {{1, "rgbw"}, {2, "grwb"}, {3, "wbgr"}, {4, "bwrg"},
                                                  {5, "rbgw"}, {6, "brwg"}, {7, "wgbr"}, {8, "gwrb"}};
    const tests::TemporaryFolder folder;
    const Bytes jpeg = jpeg_of(quarters(), 48, 32, TJPF_RGB, TJSAMP_444);
    for (const auto& [orientation, scene] : scenes)
        for (const bool little : {false, true}) {
            const auto path = folder.put("turned.jpg", with_orientation(jpeg, orientation, little));
            const Picture p = grid::read_picture(path);
            INFO("orientation " << orientation);
            CHECK(seen(p) == scene);
            CHECK(p.width == (orientation < 5 ? 48 : 32));
        }
}

TEST_CASE("an EXIF segment of nonsense leaves the photograph as it is stored", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const Bytes whole = with_orientation(jpeg_of(quarters(), 48, 32, TJPF_RGB, TJSAMP_444), 6, true);
    CHECK(seen(grid::read_picture(folder.put("x.jpg", whole))) == "brwg");
    for (std::size_t at = 12; at < 38; ++at) // every byte of the segment behind its label, to its highest value
        for (const std::uint8_t value : {0x00, 0x7F, 0xFF}) {
            Bytes bent = whole;
            bent[at] = value;
            const std::string as = seen(grid::read_picture(folder.put("x.jpg", bent)));
            INFO("byte " << at);
            CHECK((as == "rgbw" || as == "brwg"));
        }
}

TEST_CASE("grey, progressive and ink photographs are read", "[law][grid]") {
    const tests::TemporaryFolder folder;
    const auto read = [&](const Bytes& jpeg) { return grid::read_picture(folder.put("p.jpg", jpeg)); };
    CHECK(seen(read(jpeg_of(quarters(), 48, 32, TJPF_RGB, TJSAMP_420, TJFLAG_PROGRESSIVE))) == "rgbw");
    const Picture grey = read(jpeg_of(Bytes(64, 120), 8, 8, TJPF_GRAY, TJSAMP_GRAY));
    CHECK(grey.at(4, 4)[0] == Approx(120).margin(2));
    CHECK(grey.at(4, 4)[0] == grey.at(4, 4)[2]);

    // libjpeg writes Adobe's marker with inks, and with it 255 stands for no ink.
    Bytes inks;
    for (int k = 0; k < 256; ++k) inks.insert(inks.end(), {255, 128, 64, 200});
    const Picture ink = read(jpeg_of(inks, 16, 16, TJPF_CMYK, TJSAMP_444));
    CHECK(ink.at(8, 8)[0] == Approx(200).margin(4));
    CHECK(ink.at(8, 8)[1] == Approx(128 * 200 / 255.0).margin(4));
    CHECK(ink.at(8, 8)[2] == Approx(64 * 200 / 255.0).margin(4));
}

TEST_CASE("a photograph cut off anywhere is refused, not shown half", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    for (const int flags : {0, TJFLAG_PROGRESSIVE}) {
        const Bytes whole = with_orientation(jpeg_of(quarters(), 48, 32, TJPF_RGB, TJSAMP_420, flags), 3, true);
        const std::string as = seen(grid::read_picture(folder.put("p.jpg", whole)));
        for (std::size_t length = 0; length < whole.size(); ++length) {
            const auto path = folder.put("p.jpg", Bytes(whole.begin(), whole.begin() + static_cast<long>(length)));
            INFO("cut to " << length << " of " << whole.size());
            CHECK_THROWS_AS(grid::read_picture(path), grid::BadInput);
        }
        CHECK(as == "wbgr");
    }
}

TEST_CASE("a photograph with spoilt bytes is refused or read, never a crash", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const Bytes whole = jpeg_of(quarters(), 48, 32, TJPF_RGB, TJSAMP_420);
    for (std::size_t at = 2; at < whole.size(); ++at) {
        Bytes bent = whole;
        bent[at] = static_cast<std::uint8_t>(~bent[at]);
        try {
            const Picture p = grid::read_picture(folder.put("p.jpg", bent));
            CHECK(p.rgb.size() == 3 * static_cast<std::size_t>(p.width) * p.height);
        } catch (const grid::BadInput& bad) {
            CHECK(std::string(bad.what()).find('\n') == std::string::npos);
        }
    }
}
