#include "report/squint_pictures.h"

#include "reference/inscribed.h"
#include "report/draw_detail.h"
#include "report/lettering_detail.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

constexpr std::uint8_t page = 250, ink = 40;
constexpr int margin = 24, dot = 2, strip_width = 90;

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

/// Ink on a pale ground that is a little larger than the letters.
void label(grid::Picture& p, int x, int y, const std::string& text) {
    const int w = text_width(text, dot), h = dot * 7;
    for (int j = -3; j < h + 3; ++j)
        for (int i = -3; i < w + 3; ++i)
            set(p, x - w / 2 + i, y - h / 2 + j, page);
    draw_text(p, x - w / 2, y - h / 2, text, dot, ink);
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

grid::Picture masses_picture(const reference::Masses& m, const std::vector<std::string>& names) {
    grid::Picture p = blank(m.width, m.height, 0);
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x)
            set(p, x, y, on_boundary(m, x, y) ? ink : grey_of(30 + 0.65 * m.list[m.at(x, y)].mean_lstar));
    const std::vector<reference::Inscribed> inner = reference::inscribed(m);
    for (std::size_t k = 0; k < m.list.size(); ++k) {
        const std::string text = k < names.size() && !names[k].empty() ? names[k] : fmt::format("{}", k + 1);
        if (inner[k].width_pixels >= 7 * dot + 4) // else the table has it
            label(p, inner[k].x, inner[k].y, text);
    }
    return p;
}

grid::Picture connected_picture(const reference::Masses& m, const reference::Connected& shape,
                                const reference::Order& order, double pixels_per_mm, double pace_cm2_s) {
    grid::Picture p = blank(m.width, m.height, page);
    // Minutes of painting are areas: how much of the shape is nearer to the start.
    std::vector<float> far;
    for (const float mm : order.far_mm)
        if (std::isfinite(mm))
            far.push_back(mm);
    std::sort(far.begin(), far.end());
    const auto minute = [&](float mm) {
        const auto nearer = std::lower_bound(far.begin(), far.end(), mm) - far.begin();
        return static_cast<int>(static_cast<double>(nearer) * order.cell_mm * order.cell_mm / 100 / pace_cm2_s / 60);
    };
    std::vector<int> minute_of(order.far_mm.size(), -1);
    for (std::size_t c = 0; c < minute_of.size(); ++c)
        if (std::isfinite(order.far_mm[c]))
            minute_of[c] = minute(order.far_mm[c]);
    const auto minute_at = [&](int x, int y) {
        if (order.width == 0)
            return -1;
        const int i = std::min(static_cast<int>(x / pixels_per_mm / order.cell_mm), order.width - 1);
        const int j = std::min(static_cast<int>(y / pixels_per_mm / order.cell_mm), order.height - 1);
        return minute_of[static_cast<std::size_t>(j) * order.width + i];
    };
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            const int piece = shape.at(m, x, y);
            if (piece < 0)
                continue;
            const int now = minute_at(x, y);
            const bool mark = piece == 0 && x > 0 && y > 0 && shape.at(m, x - 1, y) == 0 && shape.at(m, x, y - 1) == 0 &&
                              now >= 0 && ((minute_at(x - 1, y) >= 0 && minute_at(x - 1, y) != now) ||
                                           (minute_at(x, y - 1) >= 0 && minute_at(x, y - 1) != now));
            set(p, x, y, mark ? 255 : piece == 0 ? 110 : (x + y) % 8 < 2 ? 90 : 190);
        }
    for (const reference::Bridge& b : shape.bridges)
        for (std::size_t k = 1; k < b.way.size(); ++k)
            line(p, b.way[k - 1].x_mm * pixels_per_mm, b.way[k - 1].y_mm * pixels_per_mm, b.way[k].x_mm * pixels_per_mm,
                 b.way[k].y_mm * pixels_per_mm, 3, 0);
    if (!shape.pieces.empty()) {
        ring(p, order.start.x_mm * pixels_per_mm, order.start.y_mm * pixels_per_mm, 16, 255);
        ring(p, order.start.x_mm * pixels_per_mm, order.start.y_mm * pixels_per_mm, 12, 0);
    }
    return p;
}

} // namespace tidemark::report
