#include "plan/coverage.h"
#include "plan/reading_detail.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace tidemark::plan {

namespace {

constexpr int bare = -2; ///< in place of an area: the paper that no step paints
constexpr double most_cells = 1e6, finest_cell_m = 0.5e-3;
constexpr double gap_m = 2e-3;      ///< painters' masks leave a little paper between neighbours
constexpr float least_share = 0.1f; ///< of a cell; the thinnest shapes are a fifth of a finest cell

/// How much of each cell an area covers, or any painted area does; kept, since many wants name the same few.
class Covers {
  public:
    explicit Covers(const Plan& plan) : plan_(plan) {
        cell_m_ = std::max(finest_cell_m, std::sqrt(plan.width_m * plan.height_m / most_cells));
        nx_ = std::max(1, static_cast<int>(std::lround(plan.width_m / cell_m_)));
        ny_ = std::max(1, static_cast<int>(std::lround(plan.height_m / cell_m_)));
    }
    /// Does `other` go on beyond the outline of `own`, somewhere within the gap?
    bool goes_on(int own, int other) {
        const grid::Field<float>&inside = of(own), &beyond = of(other), &near = around(own);
        for (int j = 0; j < ny_; ++j) {
            const float *in = inside.row(j), *out = beyond.row(j), *by = near.row(j);
            bool found = false; // a whole row before it is asked: no branch in the loop
            for (int i = 0; i < nx_; ++i)
                found |= (by[i] > least_share) & (out[i] - in[i] > least_share);
            if (found)
                return true;
        }
        return false;
    }

  private:
    const grid::Field<float>& of(int area) {
        const auto known = kept_.find(area);
        if (known != kept_.end())
            return known->second;
        return kept_.emplace(area, area == bare ? paper() : coverage(plan_, area, nx_, ny_)).first->second;
    }
    grid::Field<float> paper() {
        grid::Field<float> left(nx_, ny_, 1.0f);
        for (const Step& step : plan_.steps) {
            if (!paints(step))
                continue;
            const grid::Field<float>& painted = of(step.area());
            for (int j = 0; j < ny_; ++j)
                for (int i = 0; i < nx_; ++i)
                    left(i, j) = std::min(left(i, j), 1 - painted(i, j));
        }
        return left;
    }
    /// The greatest value of an area within the gap, along rows and then along columns.
    const grid::Field<float>& around(int area) {
        const auto known = around_.find(area);
        if (known != around_.end())
            return known->second;
        const int reach = static_cast<int>(std::ceil(gap_m / cell_m_));
        const grid::Field<float>& in = of(area);
        grid::Field<float> along(nx_, ny_), out(nx_, ny_);
        for (int j = 0; j < ny_; ++j)
            for (int k = -reach; k <= reach; ++k)
                greatest(in.row(j) + k, along.row(j), std::max(0, -k), std::min(nx_, nx_ - k));
        for (int j = 0; j < ny_; ++j)
            for (int k = std::max(0, j - reach); k <= std::min(ny_ - 1, j + reach); ++k)
                greatest(along.row(k), out.row(j), 0, nx_);
        return around_.emplace(area, std::move(out)).first->second;
    }
    static void greatest(const float* in, float* most, int begin, int end) {
        for (int i = begin; i < end; ++i)
            most[i] = std::max(most[i], in[i]);
    }
    const Plan& plan_;
    double cell_m_;
    int nx_, ny_;
    std::map<int, grid::Field<float>> kept_, around_;
};

int side_of(const Plan& plan, const std::string& name) {
    if (name == paper_name)
        return bare;
    const int step = plan.step_index(name);
    return step >= 0 ? plan.steps[step].area() : plan.area_index(name);
}

/// A step that brings no paint is a name of no painted thing, whatever others do to its area.
bool is_painted(const Plan& plan, const std::string& name) {
    const int step = plan.step_index(name), area = side_of(plan, name);
    if (area == bare || (step >= 0 && plan.area_index(name) < whole_sheet))
        return area == bare || paints(plan.steps[step]);
    return std::any_of(plan.steps.begin(), plan.steps.end(),
                       [&](const Step& s) { return paints(s) && s.area() == area; });
}

bool is_washed(const Plan& plan, int area) {
    return std::any_of(plan.steps.begin(), plan.steps.end(),
                       [&](const Step& s) { return std::holds_alternative<Wash>(s.act) && s.area() == area; });
}

std::string pair_of(const Want& w) { return in_quotes(w.first) + " and " + in_quotes(w.second); }

/// True when one of the two has an outline of a wash, beyond which the other goes on.
bool meet(const Plan& plan, Covers& covers, int one, int other) {
    return (is_washed(plan, one) && covers.goes_on(one, other)) ||
           (is_washed(plan, other) && covers.goes_on(other, one));
}

} // namespace

void check_wants(Reading& reading) {
    const Plan& plan = reading.plan;
    Covers covers(plan);
    std::map<std::pair<int, int>, int> line_of;
    for (const Want& w : plan.wants) {
        const auto refuse = [&](const std::string& what, const std::string& allowed) {
            reading.problems.add(w.line, "[[want]]: " + what, allowed);
        };
        const std::string* bare_name = !is_painted(plan, w.first)    ? &w.first
                                       : !is_painted(plan, w.second) ? &w.second
                                                                     : nullptr;
        const int one = side_of(plan, w.first), other = side_of(plan, w.second);
        const auto [earlier, is_new] = line_of.try_emplace(std::minmax(one, other), w.line);
        if (bare_name != nullptr)
            refuse(in_quotes(*bare_name) + " is painted by no step, so it has no edge",
                   "what a wash or charge paints, or \"paper\" for what stays bare");
        else if (one == other)
            refuse(pair_of(w) + " are one area, with no edge between them", "two different areas, or \"paper\"");
        else if (!is_new)
            refuse(fmt::format("the edge of {} is wanted in line {} already", pair_of(w), earlier->second),
                   "one [[want]] for an edge");
        else if (!meet(plan, covers, one, other))
            refuse(
                one == bare || other == bare
                    ? fmt::format("no bare paper borders on {}", in_quotes(one == bare ? w.second : w.first))
                    : pair_of(w) + " don't border on each other",
                fmt::format("a wash and what begins beyond its outline, no more than {:.0f} mm away", gap_m * 1e3));
    }
}

} // namespace tidemark::plan
