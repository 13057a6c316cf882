#include "grid/clean_text.h"

#include <cstdint>

namespace tidemark::grid {

namespace {

struct Character {
    std::uint32_t code = 0;
    std::size_t bytes = 0; ///< 0: no UTF-8 begins there
};

Character first_of(std::string_view text) {
    const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(text[k]); };
    const std::size_t bytes = byte(0) < 0x80 ? 1 : byte(0) < 0xC0 ? 0 : byte(0) < 0xE0 ? 2 : byte(0) < 0xF0 ? 3 : 4;
    if (bytes < 2 || bytes > text.size())
        return {byte(0), bytes == 1 ? std::size_t{1} : std::size_t{0}};
    std::uint32_t code = byte(0) & (0x7Fu >> bytes);
    for (std::size_t k = 1; k < bytes; ++k) {
        if ((byte(k) & 0xC0) != 0x80)
            return {};
        code = code << 6 | (byte(k) & 0x3Fu);
    }
    constexpr std::uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000}; // shorter forms are to be used below
    const bool surrogate = code >= 0xD800 && code < 0xE000;
    return {code, byte(0) >= 0xF8 || code < least[bytes] || code > 0x10FFFF || surrogate ? std::size_t{0} : bytes};
}

bool can_be_shown(std::uint32_t code) {
    const bool control = code < 0x20 || (code >= 0x7F && code < 0xA0);
    const bool never = (code >= 0xFDD0 && code <= 0xFDEF) || (code & 0xFFFE) == 0xFFFE;
    return !control && !never;
}

} // namespace

std::string clean_text(std::string_view text, std::size_t most_bytes) {
    std::string clean;
    while (!text.empty()) {
        const Character c = first_of(text);
        const bool shown = c.bytes > 0 && can_be_shown(c.code);
        const std::string_view next = shown ? text.substr(0, c.bytes) : "?";
        if (clean.size() + next.size() > most_bytes)
            break;
        clean += next;
        text.remove_prefix(c.bytes > 0 ? c.bytes : 1);
    }
    return clean;
}

} // namespace tidemark::grid
