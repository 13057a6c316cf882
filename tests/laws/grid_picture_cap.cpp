// What one picture may take can be set by whoever runs the program; and by nobody to what is no size.
#include <catch2/catch.hpp>

#include <cstdlib>

#include "grid/picture.h"
#include "grid/problem.h"
#include "support/png_builder.h"
#include "support/refused.h"
#include "support/temporary_folder.h"

using namespace tidemark;

namespace {

/// Sets the variable, and takes it away again.
struct Cap {
    explicit Cap(const char* mib) { setenv("TIDEMARK_PICTURE_MIB", mib, 1); }
    ~Cap() { unsetenv("TIDEMARK_PICTURE_MIB"); }
};

std::string said(const std::filesystem::path& file) {
    try {
        grid::read_picture(file, "p.png");
    } catch (const grid::BadInput& bad) {
        return bad.what();
    }
    return "taken";
}

} // namespace

TEST_CASE("a picture that takes more than the cap is refused before it is decoded, and the cap is named", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const auto file = folder.put("p.png", tests::png_of(3000, 2000, 8, 2, {0})); // claims 6 megapixels: 6 * (3 + 4 + 4) MB
    CHECK(said(file) == "p.png: the PNG can't be read (not enough pixels)");
    const Cap cap("48");
    CHECK(grid::picture_memory_bytes() == 48 << 20);
    const std::string line = said(file);
    CHECK(line.find("p.png: the picture is 3000 x 2000 pixels, which take ") == 0);
    CHECK(line.find("allowed: at most 50331648 bytes (TIDEMARK_PICTURE_MIB)") != std::string::npos);
}

TEST_CASE("a cap that is no number of MiB is said to be none", "[wrong][grid]") {
    CHECK(grid::picture_memory_bytes() == 1ll << 30);
    for (const char* mib : {"15", "65537", "-64", "64MiB", "1e3", " 64", "99999999999999999999"}) {
        const Cap cap(mib);
        CHECK_THROWS_WITH(grid::picture_memory_bytes(), "TIDEMARK_PICTURE_MIB: is \"" + std::string(mib) + "\"; allowed: 16 to 65536, in MiB");
    }
    const Cap empty("");
    CHECK(grid::picture_memory_bytes() == 1ll << 30);
}
