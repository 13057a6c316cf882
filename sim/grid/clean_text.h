/// A file's name as text that any writer takes: names of files are bytes, comments and titles are characters.
///
/// UTF-8 stays as it is (Unicode 15, table 3-7: no overlong forms, no surrogates, up to U+10FFFF). What is none becomes
/// '?', one for each byte; so do control characters (C0, DEL, C1), line breaks among them, and the code points that are
/// never characters (U+FDD0 ... U+FDEF, U+..FFFE, U+..FFFF).
#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace tidemark::grid {

/// Cut between characters, at `most_bytes` or before.
std::string clean_text(std::string_view, std::size_t most_bytes = 200);

} // namespace tidemark::grid
