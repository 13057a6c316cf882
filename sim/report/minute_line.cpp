#include "report/minute_line.h"

#include "grid/csv.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

constexpr double hand_top = 0.5, hand_high = 2, band_top = 4, band_high = 8; ///< in units of the ribbon
constexpr double least_hand = 1.5;                                           ///< so that a short act is still seen
constexpr const char* ink = "#1f3550";

std::string n(double units) { return fmt::format("{:.1f}", units); }

double across(double minute, double end_min) {
    return end_min > 0 ? std::clamp(minute / end_min, 0.0, 1.0) * minute_line_width : 0;
}

void rectangle(Html& h, double x, double y, double width, double height, const std::string& fill, bool outlined) {
    Html::Attributes a{{"x", n(x)}, {"y", n(y)}, {"width", n(width)}, {"height", n(height)}, {"fill", fill}};
    if (outlined)
        a.insert(a.end(), {{"stroke", ink}, {"stroke-width", "0.5"}});
    h.element("rect", a, "");
}

const char* fill_of(plan::Stage stage) {
    static constexpr const char* fills[] = {ink, "url(#moist)", "url(#damp)", "#fff"};
    return fills[static_cast<int>(stage)];
}

/// Faint lines through all rows at the axis' marks.
void write_marks(Html& h, double end_min, double height) {
    const double step = axis_step_min(end_min);
    for (double m = 0; m <= end_min + 1e-9; m += step)
        rectangle(h, std::min(across(m, end_min), minute_line_width - 0.4), 0, 0.4, height, "#b9b6ae", false);
}

void svg(Html& h, double width, double height, const Html::Attributes& more, auto&& inside) {
    Html::Attributes a{{"viewBox", fmt::format("0 0 {:g} {:g}", width, height)}};
    a.insert(a.end(), more.begin(), more.end());
    h.inside("svg", a, inside);
}

void write_hand(Html& h, const Cue& cue, double end_min) {
    const double x = across(cue.from_min, end_min), to = across(cue.to_min, end_min);
    if (!cue.waits) {
        const double width = std::max(least_hand, to - x);
        return rectangle(h, std::min(x, minute_line_width - width), hand_top, width, hand_high, "#111", false);
    }
    const double middle = band_top + band_high / 2;
    rectangle(h, x, middle - 0.4, std::max(0.8, to - x), 0.8, "#111", false);
    for (const double end : {x, std::max(x, to - 0.8)})
        rectangle(h, end, band_top + 1.5, 0.8, band_high - 3, "#111", false);
}

void write_band(Html& h, const Cue& cue, double end_min) {
    for (const StageSpan& s : cue.ribbon) {
        const double x = across(s.from_min, end_min), width = across(s.to_min, end_min) - x;
        if (width > 0)
            rectangle(h, x, band_top, width, band_high, fill_of(s.stage), true);
    }
}

} // namespace

double axis_end_min(const CueSheet& sheet) {
    double last = 0;
    for (const Cue& cue : sheet.cues) {
        last = std::max(last, std::isnan(cue.to_min) ? 0 : cue.to_min);
        for (const StageSpan& s : cue.ribbon)
            if (s.stage <= plan::Stage::moist)
                last = std::max(last, s.to_min);
    }
    return std::min(1.02 * last, sheet.end_min); // a little more, so that the last act is seen
}

double axis_step_min(double end_min) {
    for (const double step : {1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0})
        if (end_min / step < 8)
            return step;
    return 60 * std::ceil(end_min / 60 / 8 + 1e-9);
}

std::string ribbon_text(const Cue& cue) {
    std::string text;
    for (const StageSpan& s : cue.ribbon)
        text += fmt::format("{}{} to {}", text.empty() ? "" : ", ",
                            text.empty() ? fmt::format("{} {}", plan::word(s.stage), grid::clock_text(60 * s.from_min))
                                         : plan::word(s.stage),
                            grid::clock_text(60 * s.to_min));
    if (!text.empty())
        return text;
    if (std::isnan(cue.from_min))
        return "not played";
    return fmt::format("{} from {} to {}", cue.waits ? "waiting" : "the hand at work", grid::clock_text(60 * cue.from_min),
                       grid::clock_text(60 * cue.to_min));
}

void write_patterns(Html& h) {
    svg(h, 1, 1, {{"class", "patterns"}, {"aria-hidden", "true"}}, [&] {
        h.inside("defs", {}, [&] {
            const auto pattern = [&](const char* id, auto&& inside) {
                h.inside("pattern", {{"id", id}, {"width", "4"}, {"height", "4"}, {"patternUnits", "userSpaceOnUse"}}, [&] {
                    rectangle(h, 0, 0, 4, 4, "#fff", false);
                    inside();
                });
            };
            pattern("moist", [&] {
                h.element("path", {{"d", "M-1 1L1 -1M0 4L4 0M3 5L5 3"}, {"stroke", ink}, {"stroke-width", "1.3"}}, "");
            });
            pattern("damp", [&] {
                for (const auto& [x, y] : {std::pair("1", "1"), {"3", "3"}})
                    h.element("circle", {{"cx", x}, {"cy", y}, {"r", "0.6"}, {"fill", ink}}, "");
            });
        });
    });
}

void write_axis(Html& h, double end_min) {
    constexpr double height = 15;
    svg(h, minute_line_width, height, {{"class", "ribbon"}, {"aria-hidden", "true"}}, [&] {
        const double step = axis_step_min(end_min);
        for (double m = 0; m <= end_min + 1e-9; m += step) {
            const double x = across(m, end_min);
            rectangle(h, std::min(x, minute_line_width - 0.4), height - 3, 0.4, 3, "#1d1f21", false);
            const char* anchor = x < 7 ? "start" : x > minute_line_width - 9 ? "end" : "middle";
            h.element("text", {{"x", n(x)}, {"y", "10"}, {"font-size", "11"}, {"text-anchor", anchor}, {"fill", "#1d1f21"}},
                      fmt::format("{:.0f}", m));
        }
    });
}

void write_ribbon(Html& h, const Cue& cue, double end_min) {
    svg(h, minute_line_width, ribbon_height, {{"class", "ribbon"}, {"role", "img"}, {"aria-label", ribbon_text(cue)}}, [&] {
        write_marks(h, end_min, ribbon_height);
        if (std::isnan(cue.from_min))
            return;
        write_band(h, cue, end_min);
        write_hand(h, cue, end_min);
    });
}

void write_key(Html& h) {
    const auto sample = [&](const char* words, auto&& inside) {
        h.inside("span", {{"class", "sample"}}, [&] {
            svg(h, 26, ribbon_height, {{"aria-hidden", "true"}}, inside);
            h.text(words);
        });
        h.text(" ");
    };
    static constexpr const char* words[] = {"wet: mirror sheen", "moist: broken sheen", "damp: no film, cool", "dry"};
    for (int k = 0; k < 4; ++k)
        sample(words[k], [&] { rectangle(h, 0.5, band_top, 25, band_high, fill_of(static_cast<plan::Stage>(k)), true); });
    sample("the hand at work", [&] { rectangle(h, 0.5, band_top + 3, 25, hand_high, "#111", false); });
    sample("waiting", [&] {
        Cue wait;
        wait.from_min = 0, wait.to_min = 25, wait.waits = true;
        write_hand(h, wait, minute_line_width);
    });
}

} // namespace tidemark::report
