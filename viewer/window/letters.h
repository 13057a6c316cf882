/// The letters that the window is written in, as the bytes of two OpenType fonts (made by window/CMakeLists.txt).
#pragma once
#include <span>

namespace tidemark::viewer {

std::span<const unsigned char> regular_letters();
std::span<const unsigned char> strong_letters();

} // namespace tidemark::viewer
