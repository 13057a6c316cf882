#include "report/lettering_detail.h"

#include <algorithm>
#include <sstream>

namespace tidemark::report {

namespace {

constexpr char lead = '\xc2'; ///< begins U+0080 ... U+00BF, draws nothing itself

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
    const auto letters_in = text.size() - static_cast<std::size_t>(std::count(text.begin(), text.end(), lead));
    return text.empty() ? 0 : (static_cast<int>(letters_in) * letter_pitch - 1) * dot;
}

void draw_text(grid::Picture& p, int x, int y, const std::string& text, int dot, std::uint8_t grey) {
    for (const char c : text) {
        if (c == lead) continue;
        const char* rows = rows_of(c);
        for (int r = 0; r < letter_rows; ++r)
            for (int k = 0; k < 5; ++k)
                if (rows[r * letter_pitch + k] == '#')
                    draw_dot(p, x + k * dot, y + r * dot, dot, grey);
        x += letter_pitch * dot;
    }
}

std::vector<std::string> wrapped(const std::string& text, int width, int dot) {
    std::vector<std::string> lines;
    std::istringstream words(text);
    const std::size_t most = static_cast<std::size_t>(std::max(1, (width / dot + 1) / letter_pitch));
    for (std::string word; words >> word;) {
        for (; word.size() > most; word.erase(0, most)) lines.push_back(word.substr(0, most));
        if (!lines.empty() && text_width(lines.back() + " " + word, dot) <= width)
            lines.back() += " " + word;
        else
            lines.push_back(word);
    }
    return lines;
}

} // namespace tidemark::report
