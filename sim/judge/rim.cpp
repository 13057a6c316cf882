// The dark line of a wash that dried from its edge.
#include "judge/measured_detail.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidemark::judge {

namespace {

/// Where the profile crosses `level` on the way from sample k, in mm; its end where it does not.
double crossing_mm(const Profile& p, int k, int way, double level) {
    const int last = static_cast<int>(p.lstar.size()) - 1;
    for (; k + way >= 0 && k + way <= last; k += way)
        if (p.lstar[k + way] > level) {
            const double a = p.lstar[k], b = p.lstar[k + way];
            return p.at_mm(k) + way * p.step_mm * (b > a ? std::clamp((level - a) / (b - a), 0.0, 1.0) : 0.0);
        }
    return p.at_mm(k);
}

} // namespace

double lstar_near(const Profile& p, double at_mm) {
    double sum = 0;
    int count = 0;
    const int middle = static_cast<int>(std::lround((at_mm - p.from_mm) / p.step_mm));
    const int near = std::max(0, static_cast<int>(std::lround(0.2 / p.step_mm)));
    for (int k = middle - near; k <= middle + near; ++k)
        if (k >= 0 && k < static_cast<int>(p.lstar.size()))
            sum += p.lstar[static_cast<std::size_t>(k)], ++count;
    return count == 0 ? std::numeric_limits<double>::quiet_NaN() : sum / count;
}

Rim rim_of(const Profile& p, const Transition& t, double reach_mm, double mask_mm) {
    // Darker than the darker side: else a light wash would have a rim wherever it meets a dark one.
    const double base = std::min(t.inside_L, t.outside_L);
    const double from = t.inner_mm - reach_mm, to = std::max(t.at_mm, mask_mm);
    int darkest = -1;
    double darkest_L = 0;
    for (int k = 0; k < static_cast<int>(p.lstar.size()); ++k) {
        if (p.at_mm(k) < from - 1e-9 || p.at_mm(k) > to + 1e-9)
            continue;
        const double L = lstar_near(p, p.at_mm(k));
        if (darkest < 0 || L < darkest_L)
            darkest = k, darkest_L = L;
    }
    Rim rim;
    if (darkest < 0)
        return rim;
    rim.at_mm = p.at_mm(darkest);
    if (darkest_L >= base)
        return rim;
    rim.height_L = base - darkest_L;
    const double half = base - 0.5 * rim.height_L;
    const double inner = crossing_mm(p, darkest, -1, half);
    double outer = crossing_mm(p, darkest, 1, half);
    // On its way to a lighter side the profile leaves the rim and crosses the edge in one flank, from the rim's L* to
    // that side's.
    if (t.outside_L > t.inside_L) {
        const double flank = crossing_mm(p, darkest, 1, 0.5 * (darkest_L + t.outside_L));
        if (flank - outer <= std::max(0.5 * (t.outer_mm - t.inner_mm) + 0.25, 0.5))
            outer = std::max(outer, flank);
    }
    rim.width_mm = outer - inner;
    return rim;
}

} // namespace tidemark::judge
