#include "report/edge_plot.h"

#include "plan/clock.h"
#include "report/stroke_letters_detail.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>

namespace tidemark::report {

namespace {

constexpr double left = 26, right = 128, top = 22, bottom = 108; ///< of the field, mm on the page
constexpr double lane = 17;                                      ///< middle of what is lost between equals
constexpr double least_mm = 0.3, most_mm = 30;
constexpr double dot = 0.36;
constexpr std::size_t most_lines = 6;
constexpr Pen ink{0.25, 0.1, 0.1, 0.1}, thin{0.12, 0.45, 0.45, 0.45}, band{1.1, 0.86, 0.86, 0.86}, line_pen{0.4, 0.1, 0.1, 0.1};

double up(double width_mm) {
    const double w = std::clamp(width_mm, least_mm, most_mm);
    return bottom + (top - bottom) * std::log(w / least_mm) / std::log(most_mm / least_mm);
}

/// Minutes of a time, or the number; else none.
std::optional<double> number_of(const std::string& text) {
    if (text.find(':') != std::string::npos) {
        const auto s = plan::seconds_from_clock(text);
        return s ? std::optional(*s / 60) : std::nullopt;
    }
    double x = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), x);
    return read.ec == std::errc{} && read.ptr == text.data() + text.size() ? std::optional(x) : std::nullopt;
}

void line(LineDrawing& d, double x0, double y0, double x1, double y1, const Pen& pen) {
    d.strokes.push_back({{{x0, y0}, {x1, y1}}, false, pen});
}

void text(LineDrawing& d, double x, double middle_y, const std::string& words, const Pen& pen = ink) {
    add_text(d, x, middle_y - 3 * dot, words, dot, pen);
}

/// Dashes of the line of that number, mm on and off; the first is whole.
std::pair<double, double> dashes(std::size_t k) {
    constexpr std::pair<double, double> all[most_lines] = {{1e9, 0}, {3, 1.5}, {0.6, 1.4}, {6, 1.5}, {1.5, 1.5}, {3, 3}};
    return all[k % most_lines];
}

void dashed(LineDrawing& d, std::size_t k, double x0, double y0, double x1, double y1) {
    const auto [on, off] = dashes(k);
    const double length = std::hypot(x1 - x0, y1 - y0);
    for (double s = 0; s < length; s += on + off) {
        const double e = std::min(s + on, length), u = s / length, v = e / length;
        line(d, x0 + u * (x1 - x0), y0 + u * (y1 - y0), x0 + v * (x1 - x0), y0 + v * (y1 - y0), line_pen);
    }
}

/// A ring, square, triangle, diamond, cross or plus.
void mark(LineDrawing& d, std::size_t k, double x, double y) {
    constexpr double r = 1.2;
    const auto ring = [&](std::vector<reference::PointMm> points) {
        for (auto& p : points) p.x += x, p.y += y;
        d.strokes.push_back({std::move(points), true, line_pen});
    };
    switch (k % most_lines) {
    case 0: {
        std::vector<reference::PointMm> circle;
        for (int a = 0; a < 16; ++a) circle.push_back({r * std::cos(a * 0.39269908), r * std::sin(a * 0.39269908)});
        return ring(circle);
    }
    case 1: return ring({{-r, -r}, {r, -r}, {r, r}, {-r, r}});
    case 2: return ring({{0, -1.3 * r}, {1.2 * r, r}, {-1.2 * r, r}});
    case 3: return ring({{0, -1.4 * r}, {1.4 * r, 0}, {0, 1.4 * r}, {-1.4 * r, 0}});
    case 4: line(d, x - r, y - r, x + r, y + r, line_pen); return line(d, x - r, y + r, x + r, y - r, line_pen);
    default: line(d, x - 1.4 * r, y, x + 1.4 * r, y, line_pen); return line(d, x, y - 1.4 * r, x, y + 1.4 * r, line_pen);
    }
}

void add_field(LineDrawing& d, const EdgePlot& plot) {
    const std::pair<const char*, std::pair<double, double>> words[] = {
        {"hard", {least_mm, 1}}, {"firm", {1, 3}}, {"soft", {3, 10}}, {"lost", {10, most_mm}}};
    for (const auto& [word, limits] : words)
        if (plot.wanted == word) {
            const double high = up(limits.second), low = up(limits.first);
            const int lines = std::max(2, static_cast<int>(std::ceil((low - high) / 0.9)));
            for (int k = 0; k < lines; ++k) {
                const double y = high + 0.55 + (low - high - 1.1) * k / (lines - 1);
                line(d, left + 0.55, y, right - 0.55, y, band);
            }
        }
    for (const auto& [word, limits] : words) {
        text(d, 3, (up(limits.first) + up(limits.second)) / 2, word);
        if (limits.first > least_mm) line(d, left, up(limits.first), right, up(limits.first), thin);
    }
    for (const auto& [mm, label] : {std::pair(0.3, "0.3"), {1.0, "1"}, {3.0, "3"}, {10.0, "10"}, {30.0, "30"}}) {
        line(d, left - 1.5, up(mm), left, up(mm), ink);
        text(d, left - 2.5 - stroke_text_width(label, dot), up(mm), label);
    }
    d.strokes.push_back({{{left, top}, {right, top}, {right, bottom}, {left, bottom}}, true, ink});
}

} // namespace

EdgePlot edge_plot(const plan::Plan& plan, const Question& question, const std::vector<Asked>& sheets) {
    EdgePlot plot;
    const std::vector<AskedEdge> edges = shown_edges(asked_edges(plan, question, sheets), sheets, most_lines);
    std::vector<std::string> seen;
    bool numbers = true, times = false;
    for (const Asked& a : sheets) {
        const std::string value = a.values.empty() ? "as planned" : a.values[0];
        if (std::find(seen.begin(), seen.end(), value) == seen.end()) seen.push_back(value);
        numbers = numbers && number_of(value);
        times = times || value.find(':') != std::string::npos;
    }
    const auto place = [&](const std::string& value) {
        return numbers ? *number_of(value) : static_cast<double>(std::find(seen.begin(), seen.end(), value) - seen.begin());
    };
    for (const std::string& value : seen) plot.ticks.push_back({place(value), value});
    plot.across = question.names.empty() ? "" : question.names[0] + (times && numbers ? ", m:ss" : "");
    const bool two = question.names.size() > 1;
    if (edges.empty()) return plot;
    plot.wanted = edges[0].wanted;
    plot.title = "Width of the edge" + std::string(two ? " " + edges[0].label : "") + ", mm";
    const auto add = [&](const std::string& label, const Asked& a, const AskedEdge& e) {
        const judge::Edge* edge = found(a, e);
        if (edge == nullptr) return;
        auto line_of = std::find_if(plot.lines.begin(), plot.lines.end(), [&](const PlotLine& l) { return l.label == label; });
        if (line_of == plot.lines.end() && plot.lines.size() == most_lines) return;
        if (line_of == plot.lines.end()) line_of = plot.lines.insert(plot.lines.end(), {label, {}});
        const bool alike = std::isnan(edge->width_mm) || edge->delta_L < judge::EdgeRules{}.lost_below_L;
        line_of->points.push_back({place(a.values.empty() ? "as planned" : a.values[0]),
                                   alike ? std::numeric_limits<double>::quiet_NaN() : edge->width_mm});
    };
    for (std::size_t k = 0; k < (two ? 1 : edges.size()); ++k)
        for (const Asked& a : sheets) {
            std::string label = edges[k].label;
            for (std::size_t n = 1; two && n < a.values.size(); ++n)
                label = (n == 1 ? question.names[1] + " " : label + ", ") + a.values[n];
            add(label, a, edges[k]);
        }
    for (PlotLine& l : plot.lines)
        std::stable_sort(l.points.begin(), l.points.end(), [](const PlotPoint& a, const PlotPoint& b) { return a.x < b.x; });
    return plot;
}

LineDrawing edge_plot_drawing(const EdgePlot& plot) {
    LineDrawing d{plot_width_mm, plot_height_mm, plot.title, {}};
    add_field(d, plot);
    text(d, left, 5, plot.title);
    double low = 0, high = 1;
    for (std::size_t k = 0; k < plot.ticks.size(); ++k) {
        low = k == 0 ? plot.ticks[0].first : std::min(low, plot.ticks[k].first);
        high = k == 0 ? plot.ticks[0].first : std::max(high, plot.ticks[k].first);
    }
    if (high <= low) low -= 1, high += 1;
    const double pad = 0.06 * (high - low);
    const auto across = [&](double x) { return left + (right - left) * (x - low + pad) / (high - low + 2 * pad); };
    double free_from = 0;
    for (const auto& [x, label] : plot.ticks) {
        line(d, across(x), bottom, across(x), bottom + 1.5, ink);
        const double w = stroke_text_width(label, dot), at = across(x) - w / 2;
        if (at < free_from) continue;
        text(d, at, bottom + 4, label);
        free_from = at + w + 2;
    }
    text(d, (left + right - stroke_text_width(plot.across, dot)) / 2, bottom + 10, plot.across);
    bool alike = false;
    for (std::size_t k = 0; k < plot.lines.size(); ++k) {
        const std::vector<PlotPoint>& points = plot.lines[k].points;
        for (std::size_t n = 0; n < points.size(); ++n) {
            const bool lost = std::isnan(points[n].width_mm);
            alike = alike || lost;
            mark(d, k, across(points[n].x), lost ? lane : up(points[n].width_mm));
            if (n > 0 && !lost && !std::isnan(points[n - 1].width_mm))
                dashed(d, k, across(points[n - 1].x), up(points[n - 1].width_mm), across(points[n].x), up(points[n].width_mm));
        }
        const double y = top + 5 + 9 * static_cast<double>(k);
        dashed(d, k, right + 4, y, right + 13, y);
        mark(d, k, right + 8.5, y);
        std::string label = plot.lines[k].label; // in two lines where one is too long
        const double room = plot_width_mm - right - 16;
        std::size_t bar = stroke_text_width(label, dot) > room ? label.find(" | ") : std::string::npos;
        text(d, right + 15, bar == std::string::npos ? y : y - 1.8, label.substr(0, bar));
        if (bar != std::string::npos) text(d, right + 15, y + 1.8, label.substr(bar + 1));
    }
    if (alike) text(d, 3, lane, "alike");
    if (!plot.wanted.empty() && !plot.lines.empty())
        text(d, left, 10, "grey: " + plot.wanted + " is wanted" + (plot.lines.size() > 1 ? ", of the first line" : ""));
    return d;
}

} // namespace tidemark::report
