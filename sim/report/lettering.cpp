#include "report/lettering_detail.h"

#include <algorithm>

namespace tidemark::report {

namespace {

const char* rows_of(char c) {
    for (const Letter* l = letters; l->rows != nullptr; ++l)
        if (l->character == c)
            return l->rows;
    return "##### #...# #...# #...# #...# #...# ##### ..... .....";
}

void draw_dot(grid::Picture& p, int x, int y, int dot, std::uint8_t grey) {
    for (int v = std::max(0, y); v < std::min(p.height, y + dot); ++v)
        for (int u = std::max(0, x); u < std::min(p.width, x + dot); ++u)
            std::fill_n(p.at(u, v), 3, grey);
}

} // namespace

int text_width(const std::string& text, int dot) {
    return text.empty() ? 0 : (static_cast<int>(text.size()) * letter_pitch - 1) * dot;
}

void draw_text(grid::Picture& p, int x, int y, const std::string& text, int dot, std::uint8_t grey) {
    for (const char c : text) {
        const char* rows = rows_of(c);
        for (int r = 0; r < letter_rows; ++r)
            for (int k = 0; k < 5; ++k)
                if (rows[r * letter_pitch + k] == '#')
                    draw_dot(p, x + k * dot, y + r * dot, dot, grey);
        x += letter_pitch * dot;
    }
}

} // namespace tidemark::report
