#include "judge/boundary.h"

#include "grid/within.h"
#include "judge/chain_detail.h"

#include <algorithm>
#include <cmath>

namespace tidemark::judge {

namespace {

/// Gaussian blur along x or y, kernel cut at three standard deviations, the border cell repeated.
grid::Field<float> blurred_along(const grid::Field<float>& in, double sd_cells, bool along_x) {
    const int reach = std::max(1, static_cast<int>(std::ceil(3 * sd_cells)));
    std::vector<float> weight(2 * reach + 1);
    double sum = 0;
    for (int k = -reach; k <= reach; ++k)
        sum += std::exp(-0.5 * k * k / (sd_cells * sd_cells));
    for (int k = -reach; k <= reach; ++k)
        weight[k + reach] = static_cast<float>(std::exp(-0.5 * k * k / (sd_cells * sd_cells)) / sum);
    const int nx = in.nx(), ny = in.ny();
    grid::Field<float> out(nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            float v = 0;
            for (int k = -reach; k <= reach; ++k)
                v += weight[k + reach] *
                     (along_x ? in(std::clamp(i + k, 0, nx - 1), j) : in(i, std::clamp(j + k, 0, ny - 1)));
            out(i, j) = v;
        }
    return out;
}

/// Neighbouring points weighted 1 2 1, twice: takes out the stairs of a mask of whole cells, moves a straight line
/// not at all. The ends of an open chain stay.
void smooth(Chain& c) {
    const std::size_t n = c.points.size();
    if (n < 6)
        return;
    for (int pass = 0; pass < 2; ++pass) {
        const std::vector<ChainPoint> old = c.points;
        for (std::size_t k = 0; k < n; ++k) {
            if (!c.closed && (k == 0 || k + 1 == n))
                continue;
            const ChainPoint &a = old[(k + n - 1) % n], &b = old[k], &d = old[(k + 1) % n];
            c.points[k] = {0.25 * a.x + 0.5 * b.x + 0.25 * d.x, 0.25 * a.y + 0.5 * b.y + 0.25 * d.y};
        }
    }
}

/// Points at half a spacing, one and a half, ... along the chain, in cells.
std::vector<ChainPoint> at_equal_steps(const Chain& c, double spacing) {
    std::vector<ChainPoint> out;
    double along = 0, next = 0.5 * spacing;
    const std::size_t n = c.points.size(), pieces = c.closed ? n : n - 1;
    for (std::size_t k = 0; k < pieces; ++k) {
        const ChainPoint &a = c.points[k], &b = c.points[(k + 1) % n];
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        for (; next <= along + length && length > 0; next += spacing) {
            const double t = (next - along) / length;
            out.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
        }
        along += length;
    }
    return out;
}

} // namespace

double sample_mm(const grid::Field<float>& f, double cell_mm, double x_mm, double y_mm) {
    const double x = std::clamp(x_mm / cell_mm - 0.5, 0.0, f.nx() - 1.0);
    const double y = std::clamp(y_mm / cell_mm - 0.5, 0.0, f.ny() - 1.0);
    const int i = std::min(static_cast<int>(x), std::max(0, f.nx() - 2));
    const int j = std::min(static_cast<int>(y), std::max(0, f.ny() - 2));
    const int i1 = std::min(i + 1, f.nx() - 1), j1 = std::min(j + 1, f.ny() - 1);
    const double tx = x - i, ty = y - j;
    return (1 - ty) * ((1 - tx) * f(i, j) + tx * f(i1, j)) + ty * ((1 - tx) * f(i, j1) + tx * f(i1, j1));
}

std::vector<Outline> trace_outlines(const grid::Field<float>& coverage, double cell_mm, const OutlineRules& rules) {
    constexpr grid::Allowed mm{0.01, 100, "mm"};
    grid::within("cell_mm", cell_mm, mm);
    grid::within("spacing_mm", rules.spacing_mm, mm);
    grid::within("normal_blur_mm", rules.normal_blur_mm, mm);
    std::vector<Outline> outlines;
    std::vector<Chain> chains = half_level_chains(coverage);
    if (chains.empty())
        return outlines;
    const double sd_cells = std::max(rules.normal_blur_mm / cell_mm, 0.7);
    const grid::Field<float> soft = blurred_along(blurred_along(coverage, sd_cells, true), sd_cells, false);
    for (Chain& c : chains) {
        smooth(c);
        Outline line;
        for (const ChainPoint& p : at_equal_steps(c, rules.spacing_mm / cell_mm)) {
            OutlinePoint o{(p.x + 0.5) * cell_mm, (p.y + 0.5) * cell_mm, 0, 0};
            const double d = cell_mm;
            const double gx =
                sample_mm(soft, cell_mm, o.x_mm + d, o.y_mm) - sample_mm(soft, cell_mm, o.x_mm - d, o.y_mm);
            const double gy =
                sample_mm(soft, cell_mm, o.x_mm, o.y_mm + d) - sample_mm(soft, cell_mm, o.x_mm, o.y_mm - d);
            const double g = std::hypot(gx, gy);
            if (g < 1e-6)
                continue; // a speck whose blur is flat has no direction
            o.out_x = -gx / g, o.out_y = -gy / g;
            line.push_back(o);
        }
        if (!line.empty())
            outlines.push_back(std::move(line));
    }
    return outlines;
}

} // namespace tidemark::judge
