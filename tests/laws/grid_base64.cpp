#include "grid/base64.h"

#include <catch2/catch.hpp>
#include <vector>

using namespace tidemark;

TEST_CASE("base64 is that of RFC 4648, section 10", "[law][grid]") {
    for (const auto& [bytes, text] : std::vector<std::pair<std::string, std::string>>{{"", ""},
                                                                                      {"f", "Zg=="},
                                                                                      {"fo", "Zm8="},
                                                                                      {"foo", "Zm9v"},
                                                                                      {"foob", "Zm9vYg=="},
                                                                                      {"fooba", "Zm9vYmE="},
                                                                                      {"foobar", "Zm9vYmFy"}})
        CHECK(grid::base64({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()}) == text);
}

TEST_CASE("base64 has all 64 digits in their order", "[law][grid]") {
    std::vector<std::uint8_t> bytes;
    for (unsigned k = 0; k < 64; k += 4) { // four digits of six bits in three bytes
        const unsigned four = k << 18 | (k + 1) << 12 | (k + 2) << 6 | (k + 3);
        for (const int shift : {16, 8, 0}) bytes.push_back(static_cast<std::uint8_t>(four >> shift));
    }
    CHECK(grid::base64(bytes) == "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/");
}
