#include "reference/masks.h"

#include "grid/problem.h"
#include "grid/rows.h"
#include "reference/masses.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidemark::reference {

namespace {

constexpr std::uint8_t none = 255;
constexpr float least = 0.5f / 255, half = 0.499f, twice = 1.25f;

struct Claim {
    std::uint8_t group = none;
    bool twice = false;
};

/// `cover`: of each group, the darkest first.
Claim claim_of(const std::vector<float>& cover, int seen) {
    Claim c;
    float sum = 0, most = least;
    int claiming = 0;
    for (std::size_t k = 0; k < cover.size(); ++k) {
        sum += cover[k], claiming += cover[k] >= half;
        if (cover[k] > most)
            most = cover[k], c.group = static_cast<std::uint8_t>(k);
    }
    if (claiming < 2 || sum < twice)
        return c;
    c.twice = true;
    for (std::size_t k = 0; k < cover.size(); ++k)
        if (cover[k] >= half && static_cast<int>(k) != seen)
            c.group = static_cast<std::uint8_t>(k);
    return c;
}

/// Ring by ring from what the masks settle, so that it doesn't matter from which side it is read.
void fill_from_nearest(std::vector<std::uint8_t>& group, int width, int height) {
    std::vector<std::uint8_t> darkest(group.size(), none);
    std::vector<std::size_t> rim, next;
    for (std::size_t p = 0; p < group.size(); ++p)
        if (group[p] != none)
            rim.push_back(p);
    const std::size_t row = static_cast<std::size_t>(width), rows = static_cast<std::size_t>(height);
    while (!rim.empty()) {
        next.clear();
        const auto reach = [&](std::size_t from, std::size_t to) {
            if (group[to] != none)
                return;
            if (darkest[to] == none)
                next.push_back(to);
            darkest[to] = std::min(darkest[to], group[from]);
        };
        for (const std::size_t p : rim) {
            const std::size_t x = p % row, y = p / row;
            if (x > 0) reach(p, p - 1);
            if (x + 1 < row) reach(p, p + 1);
            if (y > 0) reach(p, p - row);
            if (y + 1 < rows) reach(p, p + row);
        }
        for (const std::size_t p : next)
            group[p] = darkest[p];
        rim.swap(next);
    }
}

/// Halfway between the means of a group and the next that has any, at least as high as the cut below.
std::vector<float> cuts_between(const std::vector<std::uint8_t>& group, int count, const ValueMap& map) {
    std::vector<double> sum(count, 0.0), pixels(count, 0.0);
    for (std::size_t p = 0; p < group.size(); ++p)
        sum[group[p]] += map.lstar[p], pixels[group[p]] += 1;
    std::vector<float> cuts;
    double below = 0;
    for (int k = 0; k + 1 < count; ++k) {
        if (pixels[k] > 0)
            below = sum[k] / pixels[k];
        int next = k + 1;
        while (next + 1 < count && pixels[next] == 0)
            ++next;
        const double above = pixels[next] > 0 ? sum[next] / pixels[next] : 100;
        const float cut = static_cast<float>(0.5 * (below + above));
        cuts.push_back(cuts.empty() ? cut : std::max(cut, std::nextafter(cuts.back(), 200.0f)));
    }
    return cuts;
}

} // namespace

bool rising(const std::vector<float>& mean_lstar) {
    float below = -std::numeric_limits<float>::infinity();
    for (const float mean : mean_lstar) {
        if (std::isnan(mean))
            continue;
        if (mean < below + least_rise_lstar)
            return false;
        below = mean;
    }
    return true;
}

ByMasks groups_by_masks(const std::vector<grid::GreyPicture>& masks, const Groups& seen, const ValueMap& map) {
    const int count = static_cast<int>(masks.size());
    std::vector<grid::GreyPicture> cover;
    for (const grid::GreyPicture& mask : masks)
        cover.push_back(mask.width == map.width && mask.height == map.height ? mask : grid::resized(mask, map.width, map.height));
    const bool comparable = seen.count == count && seen.group.size() == map.lstar.size();
    std::vector<std::uint8_t> group(map.lstar.size()), doubled(map.lstar.size());
    grid::for_rows(map.height, static_cast<long>(group.size()), [&](int y) {
        std::vector<float> here(count);
        for (int x = 0; x < map.width; ++x) {
            const std::size_t p = static_cast<std::size_t>(y) * map.width + x;
            for (int k = 0; k < count; ++k)
                here[k] = cover[k].value[p];
            const Claim claim = claim_of(here, comparable ? seen.group[p] : -1);
            group[p] = claim.group, doubled[p] = claim.twice;
        }
    });
    ByMasks by;
    by.unclaimed = std::count(group.begin(), group.end(), none);
    by.claimed_twice = std::count(doubled.begin(), doubled.end(), 1);
    if (by.unclaimed == static_cast<std::int64_t>(group.size()))
        throw grid::BadInput("the masks", "they are all black", "white where a group is painted");
    fill_from_nearest(group, map.width, map.height);
    by.groups = group_with(map, cuts_between(group, count, map));
    by.groups.group = std::move(group);
    by.groups = groups_of(find_masses(by.groups, map), map, by.groups);
    return by;
}

} // namespace tidemark::reference
