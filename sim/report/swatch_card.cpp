#include "report/draw_detail.h"
#include "report/lettering_detail.h"
#include "report/swatches.h"

#include <algorithm>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

// Pixels. Two columns of rows; in each a name, then the swatches.
constexpr int width = 2400, margin = 130, gutter = 100, column = (width - 2 * margin - gutter) / 2;
constexpr int loads = static_cast<int>(swatch_loads_kg_m2.size());
constexpr int half = 56, between = 16, swatch_pitch = 2 * half + between, swatch_height = 92, row_pitch = 160;
constexpr int name_width = column - loads * swatch_pitch + between, name_lines = 3; // swatches end with the column
constexpr int large = 6, normal = 3, small = 2; // pixels a dot of a letter
constexpr int line = 36, head_height = 132;
constexpr std::uint8_t ink = 50, pencil = 95;
constexpr Tone rule{176, 172, 166};

constexpr double film_m = 100e-6, water_kg_m3 = 1000;

Tone tone(const Seen& seen) { return {seen.code.r, seen.code.g, seen.code.b}; }

bool marked(const materials::Pigment& p) { return p.caution == "medium" || p.caution == "high"; }
std::string mark(const std::string& level) { return level == "high" ? "!!" : "!"; }

/// The cautions that a mark stands for.
std::vector<materials::Caution> cautions_of(const Swatches& all, const std::vector<materials::Caution>& cautions) {
    std::vector<materials::Caution> out;
    for (const materials::Caution& c : cautions)
        if ((c.level == "medium" || c.level == "high") &&
            std::any_of(all.rows.begin(), all.rows.end(),
                        [&](const SwatchRow& row) { return marked(row.pigment) && c.concerns(row.pigment.id); }))
            out.push_back(c);
    return out;
}

/// Draws text on the card, or only measures it when there is none yet.
class Pen {
  public:
    Pen(grid::Picture* card) : card_(card) {}
    void write(int x, int y, const std::string& text, int dot, std::uint8_t grey) const {
        if (card_) draw_text(*card_, x, y, text, dot, grey);
    }
    void centred(int middle, int y, const std::string& text, int dot, std::uint8_t grey) const {
        write(middle - text_width(text, dot) / 2, y, text, dot, grey);
    }
    void bold(int x, int y, const std::string& text, int dot, std::uint8_t grey) const {
        write(x, y, text, dot, grey), write(x + 1, y, text, dot, grey);
    }
    /// Returns where the next line begins.
    int paragraph(int x, int y, int wide, const std::string& text, std::uint8_t grey) const {
        for (const std::string& words : wrapped(text, wide, normal)) write(x, y, words, normal, grey), y += line;
        return y;
    }
    void box(int x, int y, int w, int h, Tone t) const {
        if (card_) fill(*card_, x, y, w, h, t);
    }
    void outline(int x, int y, int w, int h) const {
        if (card_) frame(*card_, x, y, w, h, rule);
    }

  private:
    grid::Picture* card_;
};

int title(const Pen& pen, const Swatches& all, int y) {
    pen.write(margin, y, fmt::format("{} pigments, wet and dry", all.rows.size()), large, ink);
    y += letter_rows * large + 26;
    return pen.paragraph(margin, y, width - 2 * margin,
                         fmt::format("One even layer on {}, in daylight {}. Left half: wet, under a film of water, the "
                                     "paper soaked; right half: dry. The numbers are L* of each, 0 black to 100 white; "
                                     "the bare paper has {:.0f}.",
                                     all.paper, light_name(all.light), all.bare.lab.L),
                         pencil);
}

/// Loads over the swatches, and the strength of a mix that lays them.
void heads(const Pen& pen, int x, int y) {
    pen.write(x, y, "load, g/m²", normal, ink);
    pen.write(x, y + line, "% in 100 µm", normal, pencil);
    int left = x + name_width;
    for (const double load : swatch_loads_kg_m2) {
        pen.centred(left + half, y, fmt::format("{:g}", load * 1e3), normal, ink);
        pen.centred(left + half, y + line, fmt::format("{:g}%", 100 * load / (film_m * water_kg_m3)), normal, pencil);
        pen.centred(left + half / 2, y + 2 * line + 8, "wet", small, pencil);
        pen.centred(left + half + half / 2, y + 2 * line + 8, "dry", small, pencil);
        left += swatch_pitch;
    }
    pen.box(x, y + head_height - 24, column, 1, rule);
}

void draw_row(const Pen& pen, const SwatchRow& row, int x, int y) {
    const materials::Pigment& p = row.pigment;
    pen.bold(x, y, p.id, normal, ink);
    if (marked(p)) pen.bold(x + text_width(p.id + " ", normal), y, mark(p.caution), normal, ink);
    std::vector<std::string> name = wrapped(p.name, name_width - 24, normal);
    if (name.size() > name_lines) name.resize(name_lines), name.back() += "..";
    for (int k = 0; k < static_cast<int>(name.size()); ++k) pen.write(x, y + line * (k + 1), name[k], normal, pencil);
    int left = x + name_width;
    for (const Swatch& s : row.swatches) {
        pen.box(left, y, half, swatch_height, tone(s.wet));
        pen.box(left + half, y, half, swatch_height, tone(s.dry));
        pen.outline(left, y, 2 * half, swatch_height);
        const int below = y + swatch_height + 12;
        pen.centred(left + half / 2, below, fmt::format("{:.0f}", s.wet.lab.L), normal, ink);
        pen.centred(left + half + half / 2, below, fmt::format("{:.0f}", s.dry.lab.L), normal, ink);
        left += swatch_pitch;
    }
}

/// Returns the height of the card.
int draw(const Pen& pen, const Swatches& all, const std::vector<materials::Caution>& cautions) {
    int y = title(pen, all, margin) + 40;
    const int rows = (static_cast<int>(all.rows.size()) + 1) / 2;
    for (int c = 0; c < 2; ++c) {
        const int x = margin + c * (column + gutter);
        heads(pen, x, y);
        for (int k = 0; k < rows && c * rows + k < static_cast<int>(all.rows.size()); ++k)
            draw_row(pen, all.rows[c * rows + k], x, y + head_height + k * row_pitch);
    }
    y += head_height + rows * row_pitch + 10;
    pen.box(margin, y, width - 2 * margin, 1, rule);
    y = pen.paragraph(margin, y + 34, width - 2 * margin,
                      "% in 100 µm: weight percent of pigment in a mix that lays this load in a film 100 µm deep (a good "
                      "wash). A screen can't show the most vivid colours.",
                      pencil);
    const std::vector<materials::Caution> shown = cautions_of(all, cautions);
    const int indent = text_width("!!  ", normal);
    for (const materials::Caution& c : shown) {
        y += 10;
        pen.bold(margin, y, mark(c.level), normal, ink);
        y = pen.paragraph(margin + indent, y, width - 2 * margin - indent, c.what + ": " + c.text, ink);
    }
    if (!shown.empty())
        y = pen.paragraph(margin, y + 10, width - 2 * margin,
                          "General knowledge: the label and the safety sheet of the paint go first.", pencil);
    return y + margin - line;
}

} // namespace

grid::Picture swatch_card(const Swatches& all, const std::vector<materials::Caution>& cautions) {
    grid::Picture card{width, draw(Pen(nullptr), all, cautions), {}};
    card.rgb.resize(3 * static_cast<std::size_t>(card.width) * card.height);
    fill(card, 0, 0, card.width, card.height, tone(all.bare));
    draw(Pen(&card), all, cautions);
    return card;
}

} // namespace tidemark::report
