#include "report/squint_pictures.h"

#include "grid/csv.h"
#include "grid/units.h"
#include "reference/inscribed.h"
#include "report/captions_detail.h"
#include "report/draw_detail.h"
#include "report/leaders_detail.h"
#include "report/lettering_detail.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <utility>

namespace tidemark::report {

namespace {

constexpr std::uint8_t page = 250, ink = 40;
constexpr int margin = 24, dot = 2, strip_width = 90;
constexpr int leader_reach = 120; // pixels
constexpr std::size_t most_told = 120;
constexpr int first_tone = 70, last_tone = 160; ///< of the connected shape, from where it is begun to where it is finished

void set(grid::Picture& p, int x, int y, std::uint8_t grey) {
    if (x >= 0 && y >= 0 && x < p.width && y < p.height)
        std::fill_n(p.at(x, y), 3, grey);
}

grid::Picture blank(int width, int height, std::uint8_t grey) {
    return {width, height, std::vector<std::uint8_t>(std::size_t{3} * width * height, grey)};
}

bool on_boundary(const reference::Masses& m, int x, int y) {
    return (x > 0 && m.at(x - 1, y) != m.at(x, y)) || (y > 0 && m.at(x, y - 1) != m.at(x, y));
}

void draw_outlines(grid::Picture& p, const reference::Masses& m) {
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x)
            if (on_boundary(m, x, y))
                set(p, x, y, ink);
}

constexpr int plate = 2; ///< pale ground round the letters

using Size = std::pair<int, int>; ///< width, height

Size caption_size(const std::string& text, int dots) {
    const bool descends = text.find_first_of("gjpqy_") != std::string::npos;
    return {text_width(text, dots) + 2 * plate, dots * (descends ? letter_rows : letter_rows - 2) + 2 * plate};
}

using Captions = std::map<int, std::string>; ///< by part

void draw_plate(grid::Picture& p, const Box& b, const std::string& text, int dots) {
    fill(p, b.x, b.y, b.width, b.height, {page, page, page});
    draw_text(p, b.x + plate, b.y + plate, text, dots, ink);
}

/// Draws each text inside its part, `dots` pixels a dot, and adds where to `drawn`. Returns what stays out: those that have
/// no room in their part.
Captions draw_captions(grid::Picture& p, const CaptionRoom& room, const Captions& texts, int dots, std::vector<Box>& drawn) {
    std::map<Size, Captions> of_size; // many are of one size: they share a search
    for (const auto& [part, text] : texts)
        of_size[caption_size(text, dots)][part] = text;
    Captions left_out;
    for (const auto& [size, alike] : of_size) {
        const auto [width, height] = size;
        const auto spots = room.spots(width + 2, height + 2); // the line round the part stays whole
        for (const auto& [part, text] : alike) {
            if (!spots[part]) {
                left_out[part] = text;
                continue;
            }
            drawn.push_back({spots[part]->x + 1, spots[part]->y + 1, width, height});
            draw_plate(p, drawn.back(), text, dots);
        }
    }
    return left_out;
}

/// In small letters where there is no room for others; returns what has no room for these either.
Captions draw_numbers(grid::Picture& p, const CaptionRoom& room, const Captions& numbers, std::vector<Box>& drawn) {
    return draw_captions(p, room, draw_captions(p, room, numbers, dot, drawn), dot / 2, drawn);
}

/// The same picture on a page that goes on below, with these lines on it.
grid::Picture with_lines_below(const grid::Picture& p, const std::vector<std::string>& lines) {
    constexpr int pitch = dot * (letter_rows + 2);
    std::vector<std::string> broken;
    for (const std::string& text : lines)
        for (const std::string& part : wrapped(text, p.width - 2 * margin, dot))
            broken.push_back(part);
    if (broken.empty())
        return p;
    grid::Picture out = blank(p.width, p.height + 2 * margin + static_cast<int>(broken.size()) * pitch, page);
    std::copy(p.rgb.begin(), p.rgb.end(), out.rgb.begin());
    for (std::size_t k = 0; k < broken.size(); ++k)
        draw_text(out, margin, p.height + margin + static_cast<int>(k) * pitch, broken[k], dot, ink);
    return out;
}

void line(grid::Picture& p, double x0, double y0, double x1, double y1, int half, std::uint8_t grey) {
    const int steps = 1 + static_cast<int>(2 * std::hypot(x1 - x0, y1 - y0));
    for (int k = 0; k <= steps; ++k) {
        const double t = static_cast<double>(k) / steps;
        const int x = static_cast<int>(x0 + t * (x1 - x0)), y = static_cast<int>(y0 + t * (y1 - y0));
        for (int j = -half; j <= half; ++j)
            for (int i = -half; i <= half; ++i)
                set(p, x + i, y + j, grey);
    }
}

void ring(grid::Picture& p, double x, double y, int radius, std::uint8_t grey) {
    for (int j = -radius; j <= radius; ++j)
        for (int i = -radius; i <= radius; ++i)
            if (const double r = std::hypot(i, j); r <= radius && r > radius - 4)
                set(p, static_cast<int>(x) + i, static_cast<int>(y) + j, grey);
}

/// Pale with a dark heart, to be seen on any ground.
void leader(grid::Picture& p, int x, int y, const Box& to) {
    const CaptionSpot end = nearest_in(to, x, y);
    line(p, x, y, end.x, end.y, 1, page);
    line(p, x, y, end.x, end.y, 0, ink);
}

void small_dot(grid::Picture& p, int x, int y) {
    line(p, x, y, x, y, 2, page);
    line(p, x, y, x, y, 1, ink);
}

/// Numbers that have no room in their mass: near it, the largest mass first. Returns those that have no room there either.
Captions draw_leaders(grid::Picture& p, const reference::Masses& m, const Captions& numbers, const std::vector<reference::Inscribed>& middles, const std::vector<Box>& drawn) {
    FreeRoom room(m.of, m.width, m.height);
    for (const Box& b : drawn)
        room.take(b);
    std::vector<int> in_turn;
    for (const auto& [k, text] : numbers)
        in_turn.push_back(k), room.take({middles[k].x, middles[k].y, 1, 1});
    std::stable_sort(in_turn.begin(), in_turn.end(), [&](int a, int b) { return m.list[a].pixels > m.list[b].pixels; });
    Captions left_out;
    std::vector<std::pair<int, Box>> placed;
    for (const int k : in_turn) {
        const auto [width, height] = caption_size(numbers.at(k), dot / 2);
        if (const auto box = room.near(middles[k].x, middles[k].y, width, height, leader_reach)) {
            room.take_with_line(middles[k].x, middles[k].y, *box);
            placed.emplace_back(k, *box);
        } else {
            left_out[k] = numbers.at(k);
        }
    }
    for (const auto& [k, box] : placed)
        leader(p, middles[k].x, middles[k].y, box);
    for (const int k : in_turn)
        small_dot(p, middles[k].x, middles[k].y);
    draw_outlines(p, m); // they stay whole
    for (const auto& [k, box] : placed)
        draw_plate(p, box, numbers.at(k), dot / 2);
    return left_out;
}

/// "Dots without a number: 31 at 120, 88 mm; 35 at 14, 60 mm."
std::string told_below(const Captions& numbers, const std::vector<reference::Inscribed>& middles, double pixels_per_mm) {
    std::string text;
    std::size_t told = 0;
    for (const auto& [k, number] : numbers) {
        if (told++ == most_told)
            break;
        text += fmt::format("{}{} at {:.0f}, {:.0f} mm", text.empty() ? "Dots without a number: " : "; ", number, middles[k].x / pixels_per_mm, middles[k].y / pixels_per_mm);
    }
    if (numbers.size() > most_told)
        text += fmt::format("; {} more, in masses.csv", numbers.size() - most_told);
    return text + ".";
}

/// So that there are some four to twelve lines.
double between_fronts_s(double minutes) {
    for (const double s : {5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0})
        if (grid::s_from_min(minutes) <= 12 * s)
            return s;
    return 1800;
}

} // namespace

grid::Picture grey_picture(const reference::ValueMap& map) {
    grid::Picture p = blank(map.width, map.height, 0);
    for (int y = 0; y < map.height; ++y)
        for (int x = 0; x < map.width; ++x)
            set(p, x, y, grey_of(map.at(x, y)));
    return p;
}

grid::Picture value_map_picture(const reference::ValueMap& map) {
    const grid::Picture grey = grey_picture(map);
    grid::Picture p = blank(map.width + 3 * margin + strip_width, std::max(map.height, 5 * 40) + 2 * margin, page);
    for (int y = 0; y < grey.height; ++y)
        std::copy_n(grey.at(0, y), 3 * grey.width, p.at(margin, margin + y));
    const int step = (p.height - 2 * margin) / 5, left = map.width + 2 * margin;
    for (int k = 0; k < 5; ++k) {
        const int lstar = 90 - 20 * k;
        const std::uint8_t tone = grey_of(lstar);
        fill(p, left, margin + k * step, strip_width, step, {tone, tone, tone});
        draw_text(p, left + 8, margin + k * step + step / 2 - 7, fmt::format("{}", lstar), dot, lstar > 50 ? 0 : 255);
    }
    return p;
}

grid::Picture groups_picture(const reference::Groups& g) {
    grid::Picture p = blank(g.width, g.height, 0);
    for (int y = 0; y < g.height; ++y)
        for (int x = 0; x < g.width; ++x)
            set(p, x, y, grey_of(g.mean_lstar[g.at(x, y)]));
    return p;
}

grid::Picture masses_picture(const reference::Masses& m, const std::vector<std::string>& names, double pixels_per_mm) {
    grid::Picture p = blank(m.width, m.height, 0);
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x)
            set(p, x, y, grey_of(30 + 0.65 * m.list[m.at(x, y)].mean_lstar));
    draw_outlines(p, m);
    const CaptionRoom room(m.of, m.width, m.height, static_cast<int>(m.list.size()));
    Captions numbers, names_of;
    for (std::size_t k = 0; k < m.list.size(); ++k) {
        const bool named = k < names.size() && !names[k].empty();
        (named ? names_of : numbers)[static_cast<int>(k)] = named ? names[k] : fmt::format("{}", m.list[k].number);
    }
    std::vector<std::string> legend;
    std::vector<Box> drawn;
    for (const auto& [k, name] : draw_captions(p, room, names_of, dot, drawn)) {
        numbers[k] = fmt::format("{}", m.list[k].number);
        legend.push_back(numbers[k] + " " + name);
    }
    const Captions without_room = draw_numbers(p, room, numbers, drawn);
    if (!without_room.empty()) {
        const std::vector<reference::Inscribed> middles = reference::inscribed(m);
        if (const Captions left = draw_leaders(p, m, without_room, middles, drawn); !left.empty())
            legend.push_back(told_below(left, middles, pixels_per_mm));
    }
    return with_lines_below(p, legend);
}

grid::Picture connected_picture(const reference::Masses& m, const reference::Connected& shape,
                                const reference::Order& order, double pixels_per_mm) {
    grid::Picture p = blank(m.width, m.height, page);
    const double every_s = between_fronts_s(order.minutes);
    const auto cell_at = [&](int x, int y) { // only where the shape is
        const int i = std::min(x / order.cell_pixels, order.width - 1);
        const int j = std::min(y / order.cell_pixels, order.height - 1);
        return static_cast<std::size_t>(j) * order.width + i;
    };
    std::vector<int> branch(m.of.size(), -1), front_of(m.of.size(), -1);
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x)
            if (shape.at(m, x, y) == 0) {
                const std::size_t pixel = static_cast<std::size_t>(y) * m.width + x, cell = cell_at(x, y);
                branch[pixel] = order.branch_of[cell];
                front_of[pixel] = static_cast<int>(order.painted_s[cell] / every_s);
            }
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            const int piece = shape.at(m, x, y);
            if (piece < 0)
                continue;
            const std::size_t pixel = static_cast<std::size_t>(y) * m.width + x;
            const auto differs = [&](const std::vector<int>& of) {
                return (x > 0 && of[pixel - 1] >= 0 && of[pixel - 1] != of[pixel]) ||
                       (y > 0 && of[pixel - m.width] >= 0 && of[pixel - m.width] != of[pixel]);
            };
            const bool seam = piece == 0 && differs(branch), front = piece == 0 && differs(front_of);
            const double late = piece == 0 ? order.painted_s[cell_at(x, y)] / grid::s_from_min(order.minutes) : 0;
            set(p, x, y,
                piece != 0 ? ((x + y) % 8 < 2 ? 90 : 190)
                : seam     ? 0
                : front    ? 255
                           : static_cast<std::uint8_t>(first_tone + late * (last_tone - first_tone)));
        }
    Captions numbers;
    for (std::size_t k = 0; order.branches.size() > 1 && k < order.branches.size(); ++k)
        numbers[static_cast<int>(k)] = fmt::format("{}", k + 1);
    std::vector<Box> drawn;
    draw_numbers(p, {branch, m.width, m.height, static_cast<int>(order.branches.size())}, numbers, drawn); // one without room: the table has it
    for (const reference::Bridge& b : shape.bridges)
        for (std::size_t k = 1; k < b.way.size(); ++k)
            line(p, b.way[k - 1].x_mm * pixels_per_mm, b.way[k - 1].y_mm * pixels_per_mm, b.way[k].x_mm * pixels_per_mm,
                 b.way[k].y_mm * pixels_per_mm, 3, 0);
    if (!shape.pieces.empty()) {
        ring(p, order.start.x_mm * pixels_per_mm, order.start.y_mm * pixels_per_mm, 16, 255);
        ring(p, order.start.x_mm * pixels_per_mm, order.start.y_mm * pixels_per_mm, 12, 0);
    }
    std::vector<std::string> legend;
    if (!shape.pieces.empty())
        legend.push_back(fmt::format("The darker, the earlier; a white line every {} of painting.{}", grid::clock_text(every_s),
                                     numbers.empty() ? "" : " Numbers as in branches.csv."));
    return with_lines_below(p, legend);
}

} // namespace tidemark::report
