#include "viewer/studio/edge_list.h"

#include <fmt/format.h>

#include <algorithm>

namespace tidemark::viewer {

std::vector<EdgeLine> edge_lines(const Outcome& o) {
    std::vector<EdgeLine> lines;
    for (std::size_t e = 0; e < o.verdicts.edges.size(); ++e) {
        const judge::Edge& edge = o.verdicts.edges[e];
        for (std::size_t s = 0; s < edge.stretches.size(); ++s) {
            const judge::Stretch& stretch = edge.stretches[s];
            EdgeLine line;
            line.between = fmt::format("{} | {}", edge.area, edge.neighbour);
            line.word = stretch.word, line.wanted = edge.wanted, line.tidemark = stretch.tidemark;
            line.as_wanted = edge.wanted.empty() || edge.wanted == stretch.word;
            line.draft = o.draft;
            line.width_mm = stretch.width_mm, line.length_mm = stretch.length_mm, line.why = stretch.why;
            line.line = stretch.line, line.middle = stretch.middle;
            line.step = edge.step, line.edge = static_cast<int>(e), line.stretch = static_cast<int>(s);
            lines.push_back(std::move(line));
        }
    }
    // What is not as wanted first, then what is, then what nobody asked about; of each the longest first.
    const auto rank = [](const EdgeLine& l) { return !l.as_wanted ? 0 : !l.wanted.empty() ? 1 : 2; };
    std::stable_sort(lines.begin(), lines.end(), [&](const EdgeLine& a, const EdgeLine& b) {
        return rank(a) != rank(b) ? rank(a) < rank(b) : a.length_mm > b.length_mm;
    });
    return lines;
}

std::size_t edges_asked(const std::vector<EdgeLine>& lines) {
    return static_cast<std::size_t>(std::count_if(lines.begin(), lines.end(), [](const EdgeLine& l) { return !l.wanted.empty(); }));
}

std::string edges_sentence(const Outcome& o) {
    const auto& wants = o.verdicts.wants;
    const auto met = std::count_if(wants.begin(), wants.end(), [](const judge::WantVerdict& w) { return w.met; });
    if (wants.empty()) return "The plan wants no edges";
    return fmt::format("Edges: {} of {} as wanted", met, wants.size());
}

std::string edges_caution(const Outcome& o) { return o.draft ? "Coarse cells: these words may still turn." : ""; }

std::string place_words(double x_mm, double y_mm, double width_mm, double height_mm) {
    constexpr const char* words[3][3] = {{"upper left", "at the top", "upper right"},
                                         {"left of the middle", "in the middle", "right of the middle"},
                                         {"lower left", "at the foot", "lower right"}};
    const auto third = [](double mm, double side_mm) { return std::clamp(static_cast<int>(3 * mm / side_mm), 0, 2); };
    return words[third(y_mm, height_mm)][third(x_mm, width_mm)];
}

} // namespace tidemark::viewer
