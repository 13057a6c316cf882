#include "report/stroke_letters_detail.h"

#include "report/lettering_detail.h"

namespace tidemark::report {

namespace {

/// One letter's dots; outside there are none.
struct Dots {
    const char* rows;
    bool at(int x, int y) const {
        return x >= 0 && x < 5 && y >= 0 && y < letter_rows && rows[y * letter_pitch + x] == '#';
    }
};

/// The dot one further that way, or another that stands for it: a corner filled by a third dot needs no slope.
bool joined(const Dots& dots, int x, int y, int dx, int dy) {
    if (!dots.at(x, y) || !dots.at(x + dx, y + dy)) return false;
    return dx == 0 || dy == 0 || (!dots.at(x + dx, y) && !dots.at(x, y + dy));
}

/// Along each of four ways from the first dot of a run to its last; a dot by itself is a run of one.
template <class Add> void for_runs(const Dots& dots, Add&& add) {
    constexpr int ways[][2] = {{1, 0}, {0, 1}, {1, 1}, {-1, 1}};
    for (int y = 0; y < letter_rows; ++y)
        for (int x = 0; x < 5; ++x) {
            if (!dots.at(x, y)) continue;
            bool alone = true;
            for (const auto& [dx, dy] : ways) {
                const bool before = joined(dots, x - dx, y - dy, dx, dy);
                int end = 0;
                while (joined(dots, x + end * dx, y + end * dy, dx, dy)) ++end;
                alone = alone && !before && end == 0;
                if (!before && end > 0) add(x, y, x + end * dx, y + end * dy);
            }
            if (alone) add(x, y, x, y);
        }
}

} // namespace

double stroke_text_width(const std::string& text, double dot_mm) { return (text_width(text, 1) - 1) * dot_mm; }

void add_text(LineDrawing& drawing, double x, double y, const std::string& text, double dot_mm, const Pen& pen) {
    for (const char c : text) {
        for (const Letter* l = letters; l->rows != nullptr; ++l)
            if (l->character == c)
                for_runs({l->rows}, [&](int x0, int y0, int x1, int y1) {
                    Stroke run{{{x + x0 * dot_mm, y + y0 * dot_mm}}, false, pen};
                    if (x1 != x0 || y1 != y0) run.points.push_back({x + x1 * dot_mm, y + y1 * dot_mm});
                    drawing.strokes.push_back(run);
                });
        x += letter_pitch * dot_mm;
    }
}

} // namespace tidemark::report
