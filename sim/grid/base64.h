/// Bytes as text: RFC 4648, section 4, with padding and without line breaks. For pictures inside a page.
#pragma once
#include <cstdint>
#include <span>
#include <string>

namespace tidemark::grid {

std::string base64(std::span<const std::uint8_t>);

} // namespace tidemark::grid
