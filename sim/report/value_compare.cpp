#include "report/value_compare.h"

#include "colour/lab.h"
#include "report/draw_detail.h"
#include "report/lettering_detail.h"
#include "report/tables.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

constexpr int dot = 2, margin = 36, gap = 28, panel_longest = 760;
constexpr std::uint8_t paper = 250, ink = 70;
constexpr Tone hairline{190, 190, 190};
constexpr double full_L = 40;

grid::Picture in_groups(const reference::Groups& g, const std::vector<Tone>& tones) {
    grid::Picture p{g.width, g.height, {}};
    for (const std::uint8_t k : g.group)
        p.rgb.insert(p.rgb.end(), {tones[k].r, tones[k].g, tones[k].b});
    return p;
}

/// The groups' greys with their share of reference and sheet.
void group_legend(
    grid::Picture& p, int x, int y, const judge::Values& v, const std::vector<Tone>& tones, bool sheet) {
    for (int k = static_cast<int>(v.groups.size()) - 1; k >= 0; --k) {
        fill(p, x, y, 28, 16, tones[k]);
        frame(p, x, y, 28, 16, hairline);
        const double share = sheet ? v.groups[k].sheet_share : v.groups[k].reference_share;
        draw_text(p, x + 40, y + 1,
                  fmt::format("{} {:.0f}%", reference::group_word(k, static_cast<int>(v.groups.size())), 100 * share), dot, ink);
        y += 26;
    }
}

void difference_legend(grid::Picture& p, int x, int y, int width) {
    const int bar = std::min(width, 640);
    for (int u = 0; u < bar; ++u)
        fill(p, x + u, y, 1, 16, difference_tone((2.0 * u / (bar - 1) - 1) * full_L));
    frame(p, x, y, bar, 16, hairline);
    for (const int L : {-40, -20, 0, 20, 40}) {
        const int at = x + static_cast<int>((L / full_L + 1) / 2 * (bar - 1));
        fill(p, at, y + 17, 1, 5, hairline);
        const std::string text = fmt::format("{}{}", L > 0 ? "+" : "", L);
        const int from = std::clamp(at - text_width(text, dot) / 2, x, x + bar - text_width(text, dot));
        draw_text(p, from, y + 26, text, dot, ink);
    }
    const bool roomy =
        text_width("darker than reference", dot) + text_width("lighter than reference", dot) + 40 < bar;
    const std::string left = roomy ? "darker than reference" : "darker";
    const std::string right = roomy ? "lighter than reference" : "lighter";
    draw_text(p, x, y + 52, left, dot, ink);
    draw_text(p, x + bar - text_width(right, dot), y + 52, right, dot, ink);
}

std::string share_text(double share) { return fmt::format("right group on {:.0f}% of the sheet", 100 * share); }

} // namespace

Tone difference_tone(double difference_L) {
    const double d = std::clamp(difference_L / full_L, -1.0, 1.0);
    const double middle = 60, lstar = d < 0 ? middle + d * middle : middle + d * (100 - middle);
    const double grey = grey_of(lstar), tint = 26 * std::sin(3.14159265 * std::abs(d)); // black and white stay pure
    const auto code = [](double v) { return static_cast<std::uint8_t>(std::lround(std::clamp(v, 0.0, 255.0))); };
    if (d < 0)
        return {code(grey - 0.6 * tint), code(grey), code(grey + tint)};
    return {code(grey + 0.6 * tint), code(grey), code(grey - tint)};
}

double group_grey(const judge::GroupValues& g) {
    return std::isnan(g.reference_L) ? 0.5 * (g.from_L + g.to_L) : g.reference_L;
}

grid::Picture difference_picture(const judge::Values& v, const grid::Field<float>& lstar) {
    grid::Picture p{v.reference_L.width, v.reference_L.height, {}};
    for (int j = 0; j < p.height; ++j)
        for (int i = 0; i < p.width; ++i) {
            const Tone t = difference_tone(lstar(i, j) - v.reference_L.at(i, j));
            p.rgb.insert(p.rgb.end(), {t.r, t.g, t.b});
        }
    return p;
}

grid::Picture value_compare(const judge::Values& v, const grid::Field<float>& lstar) {
    const int nx = v.reference_L.width, ny = v.reference_L.height;
    const double scale = static_cast<double>(panel_longest) / std::max(nx, ny);
    const int w = std::max(320, static_cast<int>(std::lround(nx * scale)));
    const int h = std::max(1, static_cast<int>(std::lround(static_cast<double>(w) * ny / nx)));
    const int caption = 34, legend = 26 * std::max(3, static_cast<int>(v.groups.size())) + 24;
    grid::Picture p{2 * margin + 3 * w + 2 * gap, 2 * margin + caption + h + legend, {}};
    p.rgb.assign(3 * static_cast<std::size_t>(p.width) * p.height, paper);
    std::vector<Tone> tones;
    for (const auto& g : v.groups) {
        const std::uint8_t grey = grey_of(group_grey(g));
        tones.push_back({grey, grey, grey});
    }
    const grid::Picture panels[3] = {in_groups(v.reference_groups, tones), in_groups(v.sheet_groups, tones),
                                     difference_picture(v, lstar)};
    const std::string titles[3] = {"reference", "sheet", "sheet - reference, L*"};
    for (int k = 0; k < 3; ++k) {
        const int x = margin + k * (w + gap), y = margin + caption;
        draw_text(p, x, margin, titles[k], dot, ink);
        const grid::Picture panel = grid::resized(panels[k], w, h);
        for (int v_row = 0; v_row < h; ++v_row)
            std::copy_n(panel.at(0, v_row), 3 * w, p.at(x, y + v_row));
        frame(p, x, y, w, h, hairline);
        if (k < 2)
            group_legend(p, x, y + h + 24, v, tones, k == 1);
    }
    difference_legend(p, margin + 2 * (w + gap), margin + caption + h + 24, w);
    const std::string agreement = share_text(v.right_share);
    const int middle = margin + w + gap, space = text_width("midtones 100%", dot) + 80;
    if (text_width(agreement, dot) + space < w)
        draw_text(p, middle + w - text_width(agreement, dot), margin + caption + h + 25, agreement, dot, ink);
    return p;
}

} // namespace tidemark::report
