#include "grid/base64.h"

namespace tidemark::grid {

std::string base64(std::span<const std::uint8_t> bytes) {
    constexpr char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t k = 0; k < bytes.size(); k += 3) {
        const std::size_t left = bytes.size() - k;
        const auto byte = [&](std::size_t n) { return n < left ? std::uint32_t{bytes[k + n]} : 0; };
        const std::uint32_t three = byte(0) << 16 | byte(1) << 8 | byte(2);
        text += digits[three >> 18], text += digits[three >> 12 & 63];
        text += left > 1 ? digits[three >> 6 & 63] : '=';
        text += left > 2 ? digits[three & 63] : '=';
    }
    return text;
}

} // namespace tidemark::grid
