/// Small captions in pictures: letters of 5 × 7 dots, two rows below the line for descenders.
#pragma once
#include "grid/picture.h"

#include <string>
#include <vector>

namespace tidemark::report {

struct Letter {
    char character; ///< ASCII, or the second byte of U+0080 ... U+00BF in UTF-8
    const char* rows; ///< nine rows of five, '#' is ink, a blank between rows
};
extern const Letter letters[]; ///< ends with a null

constexpr int letter_rows = 9, letter_pitch = 6; ///< in dots

/// Width in pixels at `dot` pixels a dot.
int text_width(const std::string&, int dot);

/// Top left corner at (x, y); what falls outside the picture is left out, an unknown character is a frame.
void draw_text(grid::Picture&, int x, int y, const std::string&, int dot, std::uint8_t grey);

/// Broken between words into lines of at most `width` pixels; a word that is longer is cut.
std::vector<std::string> wrapped(const std::string&, int width, int dot);

} // namespace tidemark::report
