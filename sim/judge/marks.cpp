#include "grid/units.h"
#include "grid/within.h"
#include "judge/marks_detail.h"
#include "judge/median_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace tidemark::judge {

namespace {

void check(const MarkRules& r) {
    constexpr grid::Allowed mm{0.01, 1000, "mm"}, lightness{0, 100, "L*"};
    grid::within("lap_from_mm", r.lap_from_mm, mm);
    grid::within("lap_line_L", r.lap_line_L, lightness);
    grid::within("lap_step_L", r.lap_step_L, lightness);
    grid::within("back_after_s", r.back_after_s, {0, 1e5, "s"});
    grid::within("bloom_from_mm", r.bloom_from_mm, mm);
    grid::within("bloom_pale_L", r.bloom_pale_L, lightness);
    grid::within("bloom_rim_L", r.bloom_rim_L, lightness);
    grid::within("run_from_mm", r.run_from_mm, mm);
    grid::within("run_dark_L", r.run_dark_L, lightness);
    grid::within("grains", r.grains, {0, 100});
}

} // namespace

const char* word(MarkKind kind) { return kind == MarkKind::lap ? "lap" : kind == MarkKind::bloom ? "bloom" : "run"; }

std::string Scene::area(const sheet::ActRecord& act) const {
    return plan::area_name(plan, plan.steps[act.step].area());
}

double minute_at(const sheet::ActRecord& act, int i, int j) {
    return grid::min_from_s(act.start_s + act.cells.after_s(i, j));
}

bool brings_paint(const sheet::ActRecord& act) {
    return std::accumulate(act.pigment_kg.begin(), act.pigment_kg.end(), 0.0) > 0;
}

std::vector<std::vector<grid::Cell>> patches_of(const grid::Field<std::uint8_t>& in) {
    const int nx = in.nx(), ny = in.ny();
    grid::Field<std::uint8_t> seen(nx, ny);
    std::vector<std::vector<grid::Cell>> patches;
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            if (!in(i, j) || seen(i, j))
                continue;
            std::vector<grid::Cell> patch{{i, j}};
            seen(i, j) = 1;
            for (std::size_t k = 0; k < patch.size(); ++k) {
                const grid::Cell at = patch[k];
                for (int b = std::max(0, at.j - 1); b <= std::min(ny - 1, at.j + 1); ++b)
                    for (int a = std::max(0, at.i - 1); a <= std::min(nx - 1, at.i + 1); ++a)
                        if (in(a, b) && !seen(a, b))
                            seen(a, b) = 1, patch.push_back({a, b});
            }
            patches.push_back(std::move(patch));
        }
    return patches;
}

grid::Field<std::uint8_t> widened(const grid::Field<std::uint8_t>& in, double reach) {
    const int nx = in.nx(), ny = in.ny(), r = static_cast<int>(std::floor(reach));
    grid::Field<std::uint8_t> out(nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            if (!in(i, j))
                continue;
            for (int b = std::max(0, j - r); b <= std::min(ny - 1, j + r); ++b)
                for (int a = std::max(0, i - r); a <= std::min(nx - 1, i + r); ++a)
                    if ((a - i) * (a - i) + (b - j) * (b - j) <= reach * reach)
                        out(a, b) = 1;
        }
    return out;
}

grid::Field<float> smoothed(const grid::Field<float>& lstar, const grid::Field<std::uint8_t>& in, double sd) {
    const int nx = in.nx(), ny = in.ny(), reach = std::max(1, static_cast<int>(std::ceil(3 * sd)));
    std::vector<float> weight;
    for (int k = -reach; k <= reach; ++k)
        weight.push_back(static_cast<float>(std::exp(-0.5 * k * k / (sd * sd))));
    grid::Field<float> sum(nx, ny), share(nx, ny), out(nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            for (int a = std::max(0, i - reach); a <= std::min(nx - 1, i + reach); ++a)
                if (in(a, j))
                    sum(i, j) += weight[a - i + reach] * lstar(a, j), share(i, j) += weight[a - i + reach];
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            if (!in(i, j))
                continue;
            float total = 0, of = 0;
            for (int b = std::max(0, j - reach); b <= std::min(ny - 1, j + reach); ++b)
                total += weight[b - j + reach] * sum(i, b), of += weight[b - j + reach] * share(i, b);
            out(i, j) = total / of;
        }
    return out;
}

double spread(std::vector<double> v) {
    const double middle = median(v);
    for (double& x : v)
        x = std::abs(x - middle);
    return v.empty() ? 0 : 1.4826 * median(std::move(v));
}

std::vector<Mark> find_marks(const plan::Plan& p,
                             const sheet::Record& record,
                             const grid::Field<float>& lstar,
                             const sheet::Geometry& g,
                             const std::vector<Edge>& edges,
                             const MarkRules& rules) {
    check(rules);
    for (const sheet::ActRecord& act : record.acts)
        if (act.cells.known() && (act.cells.nx() != g.nx || act.cells.ny() != g.ny))
            throw std::invalid_argument("find_marks: an act of another sheet");
    const Scene scene{p, record, lstar, g, painted_map(p, record, g), g.cell_m * 1e3};
    std::vector<Mark> marks;
    find_laps(scene, rules, marks);
    find_blooms(scene, rules, marks);
    find_runs(scene, edges, rules, marks);
    return marks;
}

} // namespace tidemark::judge
