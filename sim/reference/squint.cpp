#include "reference/squint.h"

#include "grid/rows.h"
#include "grid/within.h"

#include <algorithm>
#include <cmath>

namespace tidemark::reference {

namespace {

/// Half of the kernel, weight of the middle first; 2 Σ - middle = 1.
std::vector<float> kernel(double sigma) {
    std::vector<double> k;
    for (int i = 0; i <= static_cast<int>(std::ceil(4 * sigma)); ++i)
        k.push_back(std::exp(-0.5 * i * i / (sigma * sigma)));
    double sum = -k[0];
    for (const double w : k)
        sum += 2 * w;
    std::vector<float> weights;
    for (const double w : k)
        weights.push_back(static_cast<float>(w / sum));
    return weights;
}

int mirrored(int i, int n) {
    const int period = 2 * n;
    i = ((i % period) + period) % period;
    return i < n ? i : period - 1 - i;
}

/// One axis; pairs are added before they are weighed, so left and right are treated alike to the last bit.
template <class At> float weighed(const std::vector<float>& k, At&& at) {
    const float middle = at(0);
    float sum = 0;
    for (std::size_t d = 1; d < k.size(); ++d) {
        const int i = static_cast<int>(d);
        sum += k[d] * ((at(-i) - middle) + (at(i) - middle));
    }
    return middle + sum; // as departures from the middle: a constant comes back exactly
}

} // namespace

ValueMap blurred(const ValueMap& map, double sigma_pixels) {
    if (!(sigma_pixels > 0))
        return map;
    const std::vector<float> k = kernel(sigma_pixels);
    const int reach = static_cast<int>(k.size()) - 1, w = map.width, h = map.height;
    const auto index = [reach](int n) {
        std::vector<int> at;
        for (int i = -reach; i < n + reach; ++i)
            at.push_back(mirrored(i, n));
        return at;
    };
    const std::vector<int> column = index(w), line = index(h);
    ValueMap across = map, out = map;
    grid::for_rows(h, static_cast<long>(map.lstar.size()), [&](int y) {
        for (int x = 0; x < w; ++x)
            across.lstar[static_cast<std::size_t>(y) * w + x] =
                weighed(k, [&](int i) { return map.at(column[x + i + reach], y); });
    });
    grid::for_rows(h, static_cast<long>(map.lstar.size()), [&](int y) {
        for (int x = 0; x < w; ++x)
            out.lstar[static_cast<std::size_t>(y) * w + x] =
                weighed(k, [&](int i) { return across.at(x, line[y + i + reach]); });
    });
    return out;
}

Groups voted(const Groups& groups, const ValueMap& map, double sigma_pixels) {
    if (!(sigma_pixels > 0) || groups.count < 2)
        return groups;
    Groups winner = groups;
    std::vector<float> most(groups.group.size(), -1.0f);
    for (int k = 0; k < groups.count; ++k) {
        ValueMap share{groups.width, groups.height, std::vector<float>(groups.group.size())};
        for (std::size_t p = 0; p < most.size(); ++p)
            share.lstar[p] = groups.group[p] == k ? 1.0f : 0.0f;
        share = blurred(share, sigma_pixels);
        for (std::size_t p = 0; p < most.size(); ++p)
            if (share.lstar[p] > most[p])
                most[p] = share.lstar[p], winner.group[p] = static_cast<std::uint8_t>(k);
    }
    return groups_of(find_masses(winner, map), map, winner);
}

SquintResult squint(const ValueMap& map, double pixels_per_mm, int groups, const Squint& how) {
    grid::within("pixels_per_mm", pixels_per_mm, {1e-3, 1000, "pixels/mm"});
    grid::within("blur_mm", how.blur_mm, {0, 100, "mm"});
    grid::within("vote_mm", how.vote_mm, {0, 100, "mm"});
    grid::within("crumb_mm2", how.crumb_mm2, {0, 1e6, "mm²"});
    SquintResult r;
    r.seen = blurred(map, how.blur_mm * pixels_per_mm);
    const Groups first = voted(group_values(r.seen, groups), map, how.vote_mm * pixels_per_mm);
    const auto crumb = static_cast<std::int64_t>(std::ceil(how.crumb_mm2 * pixels_per_mm * pixels_per_mm));
    r.masses = merged(find_masses(first, map), map, crumb);
    r.groups = groups_of(r.masses, map, first);
    return r;
}

} // namespace tidemark::reference
