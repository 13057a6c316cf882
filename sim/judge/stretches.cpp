#include "judge/cut_detail.h"
#include "judge/stretches_detail.h"

#include <algorithm>
#include <cmath>

namespace tidemark::judge {

namespace {

constexpr double most_octaves = 2;    ///< a place that is far off says no more than one that is clearly off
constexpr double finest_mm = 0.05;    ///< no width is told apart below
constexpr double told_from_cells = 2; ///< narrower than so many cells, no width is told from another

double octaves_above(double v, double limit) { return std::max(0.0, std::log2(std::max(v, finest_mm) / limit)); }
double octaves_below(double v, double limit) { return std::max(0.0, -std::log2(std::max(v, finest_mm) / limit)); }

constexpr int rim_places =
    7; ///< on either side, that a rim is read off together: the darkest of few samples is noise

const BorderPlace& place(const BorderPiece& piece, int k) {
    const int n = static_cast<int>(piece.places.size());
    return piece.places[static_cast<std::size_t>((k % n + n) % n)];
}

double rim_near(const BorderPiece& piece, int k, double cell_mm, const EdgeRules& rules) {
    const int n = static_cast<int>(piece.places.size()), reach = std::min(rim_places, (n - 1) / 2);
    std::vector<const Across*> all;
    for (int at = k - reach; at <= k + reach; ++at)
        if (piece.closed || (at >= 0 && at < n))
            all.push_back(&place(piece, at).across);
    return measure_together(all, cell_mm, rules).rim_L;
}

/// What it costs to call a place by each word (0 to 3: hard to lost; 4 to 7: the same with a rim).
Costs costs_of(const BorderPiece& piece, int k, double cell_mm, const EdgeRules& r) {
    const Across& a = place(piece, k).across;
    Costs costs{};
    if (a.profile.lstar.size() < least_samples)
        return costs; // nothing is known of it
    const Transition& t = a.transition;
    const double contrast = std::abs(t.outside_L - t.inside_L);
    const double width = std::isnan(t.width_mm) ? 0 : without_reading_blur_mm(t.width_mm, cell_mm);
    const double faint = r.lost_below_L > 0 ? octaves_below(contrast, r.lost_below_L) : 0;
    const double clear = r.lost_below_L > 0 ? octaves_above(contrast, r.lost_below_L) : most_octaves;
    // Below two cells it may be any width up to that.
    const double told_mm = told_from_cells * cell_mm, least = width < told_mm ? 0 : width,
                 most = std::max(width, told_mm);
    const double word[4] = {
        std::max(octaves_above(least, r.firm_from_mm), faint),
        std::max({octaves_below(most, r.firm_from_mm), octaves_above(least, r.soft_from_mm), faint}),
        std::max({octaves_below(most, r.soft_from_mm), octaves_above(least, r.lost_above_mm), faint}),
        std::isnan(t.width_mm) ? 0 : std::min(octaves_below(width, r.lost_above_mm), clear)};
    const double rim_L = rim_near(piece, k, cell_mm, r);
    const double least_L = std::max(r.tidemark_from_L, finest_mm);
    const double without = std::clamp((rim_L - least_L) / least_L, 0.0, 1.0);
    const double with = std::clamp((least_L - rim_L) / least_L, 0.0, 1.0);
    for (int w = 0; w < 4; ++w) {
        const double off = std::min(most_octaves, word[w]);
        costs[w] = off + without, costs[w + 4] = off + with;
    }
    return costs;
}

/// A run of places and what it measures as one.
struct Part {
    Run run;
    Measured measured;
    plan::EdgeWord word = plan::EdgeWord::lost;
    bool tidemark = false;
    bool alike(const Part& other, double cell_mm) const {
        const auto untold = [&](const Part& p) { // NaN is no width at all
            return p.word != plan::EdgeWord::lost && p.measured.width_mm < told_from_cells * cell_mm;
        };
        return tidemark == other.tidemark && (word == other.word || (untold(*this) && untold(other)));
    }
};

const BorderPlace& place(const BorderPiece& piece, const Run& run, int k) { return place(piece, run.begin + k); }

Part measure(const BorderPiece& piece, const Run& run, double cell_mm, const EdgeRules& rules) {
    const int n = static_cast<int>(piece.places.size()), half_window = static_cast<int>(0.5 * rules.window_mm);
    const bool whole = run.count == n;
    const int trim = whole ? 0 : std::min(half_window, run.count / 4);
    std::vector<const Across*> all;
    for (int k = trim; k < run.count - trim; ++k)
        all.push_back(&place(piece, run, k).across);
    Part p{run, measure_together(all, cell_mm, rules), {}, false};
    p.word = edge_word(p.measured.width_mm, p.measured.delta_L, rules);
    p.tidemark = p.measured.rim_L >= rules.tidemark_from_L;
    return p;
}

/// Runs that come out alike when measured as one are one.
std::vector<Part>
joined(const BorderPiece& piece, const std::vector<Run>& runs, double cell_mm, const EdgeRules& rules) {
    std::vector<Part> parts;
    for (const Run& run : runs)
        parts.push_back(measure(piece, run, cell_mm, rules));
    for (std::size_t k = 0; parts.size() > 1 && k < parts.size();) {
        const bool wraps = k + 1 == parts.size();
        const std::size_t next = wraps ? 0 : k + 1;
        if ((wraps && !piece.closed) || !parts[k].alike(parts[next], cell_mm)) {
            ++k;
            continue;
        }
        const Run both{parts[k].run.begin, parts[k].run.count + parts[next].run.count, 0};
        parts[k] = measure(piece, both, cell_mm, rules);
        parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(next));
        k = 0;
    }
    return parts;
}

Place_mm spot(const BorderPlace& p) { return {p.point.x_mm, p.point.y_mm}; }

Stretch
stretch_of(const BorderOf& of, int neighbour, const BorderPiece& piece, const Part& part, double lost_below_L) {
    const Measured& m = part.measured;
    Stretch s;
    s.word = plan::word(part.word), s.tidemark = part.tidemark;
    const bool faint = m.delta_L < lost_below_L;
    s.width_mm = faint ? NAN : m.width_mm, s.shift_mm = faint ? NAN : m.shift_mm;
    s.surely_mm = faint ? NAN : m.surely_mm;
    s.delta_L = m.delta_L, s.inside_L = m.inside_L, s.outside_L = m.outside_L, s.rim_L = m.rim_L, s.rim_mm = m.rim_mm;
    s.length_mm = piece.length_mm * part.run.count / static_cast<double>(piece.places.size());
    s.share = of.outline_mm > 0 ? s.length_mm / of.outline_mm : 0;
    s.from = spot(place(piece, part.run, 0)), s.middle = spot(place(piece, part.run, part.run.count / 2));
    s.to = spot(place(piece, part.run, part.run.count - 1));
    std::vector<const BorderPlace*> along;
    for (int k = 0; k < part.run.count; ++k)
        along.push_back(&place(piece, part.run, k));
    for (const BorderPlace* p : along)
        s.line.push_back(spot(*p));
    if (piece.closed && part.run.count == static_cast<int>(piece.places.size()))
        s.line.push_back(s.line.front());
    s.side = side_of(along);
    say_what_the_record_holds(of, neighbour, along, s);
    return s;
}

} // namespace

std::string side_of(const std::vector<const BorderPlace*>& along) {
    constexpr double one_way = 0.5; // shorter: the outline faces more ways than one side does
    const char* names[] = {"right", "bottom right", "bottom", "bottom left", "left", "top left", "top", "top right"};
    double x = 0, y = 0;
    for (const BorderPlace* p : along)
        x += p->point.out_x, y += p->point.out_y;
    if (std::hypot(x, y) < one_way * static_cast<double>(along.size()))
        return "all round";
    const auto eighth = static_cast<int>(std::lround(std::atan2(y, x) / (M_PI / 4)));
    return names[(eighth + 8) % 8];
}

std::vector<Stretch> stretches_of(const BorderOf& of, const Border& border, const EdgeRules& rules) {
    std::vector<Stretch> out;
    const double least_mm = std::min(rules.stretch.least_mm, border.longest_piece_mm); // shorter pieces are corners
    for (const BorderPiece& piece : border.pieces) {
        if (piece.length_mm < least_mm || piece.places.empty())
            continue;
        const double place_mm = piece.length_mm / static_cast<double>(piece.places.size());
        std::vector<Costs> costs;
        for (std::size_t k = 0; k < piece.places.size(); ++k)
            costs.push_back(costs_of(piece, static_cast<int>(k), of.map.cell_mm, rules));
        const int least = std::max(1, static_cast<int>(std::ceil(rules.stretch.least_mm / place_mm - 1e-9)));
        const auto runs = cut_into_runs(costs, rules.stretch.change / place_mm, least, piece.closed);
        for (const Part& part : joined(piece, runs, of.map.cell_mm, rules))
            out.push_back(stretch_of(of, border.neighbour, piece, part, rules.lost_below_L));
    }
    std::stable_sort(out.begin(), out.end(),
                     [](const Stretch& a, const Stretch& b) { return a.length_mm > b.length_mm; });
    return out;
}

} // namespace tidemark::judge
