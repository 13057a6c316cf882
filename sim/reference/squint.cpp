#include "reference/squint.h"

#include "grid/problem.h"
#include "grid/rows.h"
#include "grid/within.h"
#include "reference/simplify.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <string>

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

/// One row of weighed neighbours: `at[reach + i]` is the row, or the part of it, i steps on. Pairs are added before they
/// are weighed, so left and right are treated alike to the last bit, and as departures from the middle, so that a
/// constant comes back exactly.
TIDEMARK_CLONES void weigh_row(const float* __restrict k, int reach, const float* const* at, float* __restrict out, int n) {
    const float* middle = at[reach];
    for (int x = 0; x < n; ++x)
        out[x] = 0;
    for (int d = 1; d <= reach; ++d) {
        const float *before = at[reach - d], *after = at[reach + d];
        for (int x = 0; x < n; ++x)
            out[x] += k[d] * ((before[x] - middle[x]) + (after[x] - middle[x]));
    }
    for (int x = 0; x < n; ++x)
        out[x] = middle[x] + out[x];
}

} // namespace

ValueMap blurred(const ValueMap& map, double sigma_pixels) {
    if (!(sigma_pixels > 0))
        return map;
    const std::vector<float> k = kernel(sigma_pixels);
    const int reach = static_cast<int>(k.size()) - 1, w = map.width, h = map.height;
    ValueMap across = map, out = map;
    const auto row = [w](ValueMap& m, int y) { return m.lstar.data() + static_cast<std::size_t>(y) * w; };
    grid::for_rows(h, static_cast<long>(map.lstar.size()), [&](int y) {
        std::vector<float> wide(static_cast<std::size_t>(w) + 2 * reach); // the row, mirrored at both ends
        std::vector<const float*> at;
        for (int i = -reach; i < w + reach; ++i)
            wide[i + reach] = map.at(mirrored(i, w), y);
        for (int i = 0; i <= 2 * reach; ++i)
            at.push_back(wide.data() + i);
        weigh_row(k.data(), reach, at.data(), row(across, y), w);
    });
    grid::for_rows(h, static_cast<long>(map.lstar.size()), [&](int y) {
        std::vector<const float*> at;
        for (int i = -reach; i <= reach; ++i)
            at.push_back(row(across, mirrored(y + i, h)));
        weigh_row(k.data(), reach, at.data(), row(out, y), w);
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

namespace {

struct Mended {
    std::vector<std::uint8_t> pixels; ///< 1 where a thin shape or a kept light was put back
};

/// Greatest extent of each mass, mm.
std::vector<double> extents(const Masses& m, double pixels_per_mm) {
    struct Box { int left = 1 << 30, top = 1 << 30, right = -1, bottom = -1; };
    std::vector<Box> box(m.list.size());
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            Box& b = box[m.at(x, y)];
            b.left = std::min(b.left, x), b.right = std::max(b.right, x);
            b.top = std::min(b.top, y), b.bottom = std::max(b.bottom, y);
        }
    std::vector<double> mm;
    for (const Box& b : box)
        mm.push_back(std::hypot(b.right - b.left + 1, b.bottom - b.top + 1) / pixels_per_mm);
    return mm;
}

/// Where the vote has changed the group: each part that hangs together, of one group before, is looked at.
Masses taken_away(const Groups& before, const Groups& after, const ValueMap& map) {
    Groups lost = before; // 0: nothing was taken; else the group before, plus 1
    for (std::size_t p = 0; p < lost.group.size(); ++p)
        lost.group[p] = before.group[p] == after.group[p] ? std::uint8_t{0} : static_cast<std::uint8_t>(before.group[p] + 1);
    return find_masses(lost, map);
}

/// A rope or a post: long, and many times longer than it is wide.
void put_back_thin(const Groups& before, Groups& after, const ValueMap& map, double pixels_per_mm, Mended& mended) {
    const Masses lost = taken_away(before, after, map);
    const std::vector<double> extent = extents(lost, pixels_per_mm);
    std::vector<std::uint8_t> thin(lost.list.size(), 0);
    for (std::size_t k = 0; k < thin.size(); ++k) {
        const Mass& mass = lost.list[k];
        const double area_mm2 = static_cast<double>(mass.pixels) / (pixels_per_mm * pixels_per_mm);
        double contrast = 0, length = 0;
        for (const Border& b : mass.neighbours)
            contrast += b.contrast_lstar * static_cast<double>(b.length), length += static_cast<double>(b.length);
        thin[k] = mass.group > 0 && extent[k] >= thin_from_mm && extent[k] * extent[k] >= thin_slender * area_mm2 &&
                  length > 0 && contrast / length >= thin_contrast_L;
    }
    for (std::size_t p = 0; p < after.group.size(); ++p)
        if (thin[lost.of[p]])
            after.group[p] = before.group[p], mended.pixels[p] = 1;
}

/// The light that a painter has pointed at, as it was before the vote.
void put_back_light(const Groups& before, const Masses& fine, Groups& after, const Point& at, double pixels_per_mm,
                    Mended& mended) {
    const std::string name = fmt::format("--keep-light {:g},{:g}", at.x_mm, at.y_mm);
    const double across = at.x_mm * pixels_per_mm, down = at.y_mm * pixels_per_mm;
    constexpr double rounded = 0.5 + 1e-6; // a sheet is so many whole pixels, half a one less than it measures
    if (!(across >= 0 && down >= 0 && across <= after.width + rounded && down <= after.height + rounded))
        throw grid::BadInput(name, "that is beyond the sheet",
                             fmt::format("0 to {:g}, 0 to {:g} mm", after.width / pixels_per_mm, after.height / pixels_per_mm));
    const int x = std::min(static_cast<int>(across), after.width - 1);
    const int y = std::min(static_cast<int>(down), after.height - 1);
    const int mass = fine.at(x, y);
    const Mass& light = fine.list[mass];
    const bool lightest = light.group == before.count - 1;
    const bool above = std::all_of(light.neighbours.begin(), light.neighbours.end(),
                                   [&](const Border& b) { return fine.list[b.mass].group < light.group; });
    if (!lightest && (!above || light.neighbours.empty()))
        throw grid::BadInput(name, "no light lies there", "a point inside something lighter than what is round it");
    for (std::size_t p = 0; p < after.group.size(); ++p)
        if (fine.of[p] == mass)
            after.group[p] = static_cast<std::uint8_t>(light.group), mended.pixels[p] = 1;
}

std::vector<std::uint8_t> masses_with(const Masses& m, const Mended& mended) {
    std::vector<std::uint8_t> with(m.list.size(), 0);
    for (std::size_t p = 0; p < m.of.size(); ++p)
        if (mended.pixels[p])
            with[m.of[p]] = 1;
    return with;
}

void check(double pixels_per_mm, const Squint& how) {
    grid::within("pixels_per_mm", pixels_per_mm, {1e-3, 1000, "pixels/mm"});
    grid::within("blur_mm", how.blur_mm, {0, 100, "mm"});
    grid::within("vote_mm", how.vote_mm, {0, 100, "mm"});
    grid::within("crumb_mm2", how.crumb_mm2, {0, 1e6, "mm²"});
    grid::within("simplify_mm", how.simplify_mm, {0, 100, "mm"});
}

} // namespace

SquintResult squint(const ValueMap& map, double pixels_per_mm, int groups, const Squint& how) {
    check(pixels_per_mm, how);
    SquintResult r;
    const ValueMap softened = blurred(map, how.blur_mm * pixels_per_mm);
    r.seen = how.simplify_mm > 0 ? simplified(softened, how.simplify_mm * pixels_per_mm) : softened;
    const Groups grouped = how.thresholds.empty() ? group_values(r.seen, groups) : group_with(r.seen, how.thresholds);
    Groups cleaned = voted(grouped, map, how.vote_mm * pixels_per_mm);
    Mended mended{std::vector<std::uint8_t>(map.lstar.size(), 0)};
    if (how.keep_thin || !how.keep.empty()) {
        const Groups before = group_with(softened, grouped.thresholds);
        if (how.keep_thin)
            put_back_thin(before, cleaned, map, pixels_per_mm, mended);
        if (!how.keep.empty()) {
            const Masses fine = find_masses(before, map);
            for (const Point& light : how.keep)
                put_back_light(before, fine, cleaned, light, pixels_per_mm, mended);
        }
    }
    const auto crumb = static_cast<std::int64_t>(std::ceil(how.crumb_mm2 * pixels_per_mm * pixels_per_mm));
    const Masses all = find_masses(cleaned, map);
    r.masses = merged(all, map, crumb, masses_with(all, mended), &r.joined);
    r.groups = groups_of(r.masses, map, cleaned);
    return r;
}

} // namespace tidemark::reference
