#include "report/lesson_pictures.h"

#include "grid/csv.h"
#include "plan/plan.h"
#include "report/draw_detail.h"
#include "report/enlarge.h"
#include "report/lettering_detail.h"

#include <algorithm>
#include <cmath>

namespace tidemark::report {

namespace {

constexpr std::uint8_t ink = 20;
constexpr Tone hairline{150, 150, 150}, ground{255, 255, 255};

grid::Picture blank(int width, int height) {
    grid::Picture p{width, height, std::vector<std::uint8_t>(3 * static_cast<std::size_t>(width) * height)};
    fill(p, 0, 0, width, height, ground);
    return p;
}

/// The sheet at (x, y), `width` pixels wide: smooth where it grows, the mean where it shrinks.
void place(grid::Picture& page, const grid::Picture& cells, int x, int y, int width, int height) {
    const int factor = std::clamp((width + cells.width - 1) / cells.width, 1, 16);
    const grid::Picture shown = grid::resized(enlarged(cells, factor), width, height);
    for (int row = 0; row < height; ++row) std::copy_n(shown.at(0, row), 3 * width, page.at(x, y + row));
    frame(page, x, y, width, height, hairline);
}

int height_for(const LessonView& view, int width) {
    return std::max(1, static_cast<int>(std::lround(static_cast<double>(width) * view.cells.height / view.cells.width)));
}

/// In the largest letters up to `dot` that leave it room.
void write(grid::Picture& page, int x, int y, int width, const std::string& text, int dot) {
    while (dot > 1 && text_width(text, dot) > width) --dot;
    draw_text(page, x, y, text, dot, ink);
}

// The strip, in pixels: 277 mm wide and at most 190 mm high.
constexpr int page_width = 2400, page_height = 1646, margin = 24, gap = 36, title_dot = 5, dot = 4;
constexpr int title_height = letter_rows * title_dot + 30, line_height = letter_rows * dot + 8;

/// How many panels lie beside each other, and how wide one is.
struct Layout {
    int columns = 1, panel_width = 1;
};

/// Two sheets stand below each other, a column a moment, to be compared. One sheet's moments are read like lines of text:
/// of the ways to break them, that with the fewest lines whose panels are nearly the largest.
Layout layout_of(int moments, int sheets, int lines_a_row, double aspect) {
    const auto with = [&](int columns) {
        const int rows = (moments + columns - 1) / columns * sheets;
        const double wide = (page_width - 2.0 * margin - (columns - 1) * gap) / columns;
        const double high = (page_height - 2.0 * margin - title_height - (rows - 1.0) * gap) / rows - lines_a_row * line_height;
        return Layout{columns, std::max(1, static_cast<int>(std::min(wide, high / aspect)))};
    };
    Layout chosen = with(moments);
    if (sheets > 1) return chosen;
    constexpr double nearly = 1.15;
    for (int columns = moments - 1; columns > 0; --columns)
        if (const Layout other = with(columns); other.panel_width > nearly * chosen.panel_width) chosen = other;
    return chosen;
}

} // namespace

const double strip_pixels_per_m = page_width / 0.277;

sheet::CellStage stage_reached(const double (&share)[4]) {
    for (const sheet::CellStage stage : {sheet::CellStage::dry, sheet::CellStage::damp, sheet::CellStage::moist})
        if (sheet::has_reached(share, stage)) return stage;
    return sheet::CellStage::wet;
}

std::string words_of(const LessonView& view) {
    const std::string clock = grid::clock_text(view.time_s);
    return view.finished ? clock + "  all dry" : clock + "  " + plan::word(static_cast<plan::Stage>(view.stage));
}

grid::Picture lesson_strip(const std::string& title, const std::vector<std::string>& captions,
                           const std::vector<std::vector<LessonView>>& moments) {
    const int count = static_cast<int>(moments.size()), sheets = static_cast<int>(captions.size());
    const LessonView& first = moments.front().front();
    const double aspect = static_cast<double>(first.cells.height) / first.cells.width;
    const Layout layout = layout_of(count, sheets, sheets > 1 ? 2 : 1, aspect);
    const int width = layout.panel_width, height = height_for(first, width);
    const int head = line_height * (sheets > 1 ? 2 : 1), row_height = head + height + gap;
    const int rows = (count + layout.columns - 1) / layout.columns * sheets;
    const int left = (page_width - layout.columns * (width + gap) + gap) / 2;
    grid::Picture page = blank(page_width, 2 * margin + title_height + rows * row_height - gap + 2);
    write(page, margin, margin, page_width - 2 * margin, title, title_dot);
    const std::string legend = "minutes:seconds, stage of the paper";
    if (text_width(title, title_dot) + text_width(legend, dot) + 100 < page_width - 2 * margin)
        draw_text(page, page_width - margin - text_width(legend, dot), margin + 6, legend, dot, ink);
    for (int m = 0; m < count; ++m)
        for (int s = 0; s < sheets; ++s) {
            const int row = m / layout.columns * sheets + s, column = m % layout.columns;
            const int x = left + column * (width + gap), y = margin + title_height + row * row_height;
            if (sheets > 1 && column == 0) write(page, x, y, page_width - 2 * margin, captions[s], dot);
            write(page, x, y + head - line_height, width, words_of(moments[m][s]), dot);
            place(page, moments[m][s].cells, x, y + head, width, height);
        }
    return page;
}

grid::Picture lesson_frame(const std::string& title, const std::vector<std::string>& captions,
                           const std::vector<LessonView>& views) {
    constexpr int border = 12, letter_dot = 3, line = letter_rows * letter_dot + 6, apart = 20;
    const int sheets = static_cast<int>(views.size()), width = sheets > 1 ? 440 : 720;
    const int height = height_for(views.front(), width), lines = sheets > 1 ? 3 : 2;
    grid::Picture page = blank(2 * border + sheets * width + (sheets - 1) * apart, 2 * border + lines * line + height);
    write(page, border, border, page.width - 2 * border, title, letter_dot);
    for (int s = 0; s < sheets; ++s) {
        const int x = border + s * (width + apart);
        if (sheets > 1) write(page, x, border + line, width, captions[s], letter_dot);
        write(page, x, border + (lines - 1) * line, width, words_of(views[s]), letter_dot);
        place(page, views[s].cells, x, border + lines * line, width, height);
    }
    return page;
}

} // namespace tidemark::report
