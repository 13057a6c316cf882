#include "reference/connected.h"

#include "grid/within.h"
#include "reference/connected_detail.h"
#include "reference/masses_detail.h"

#include <algorithm>
#include <tuple>

namespace tidemark::reference {

namespace {

/// Fills piece_of and pieces.
void find_pieces(const Masses& m, int light_from, double pixels_per_mm, Connected& c) {
    JoinedLabels joined;
    for (std::size_t i = 0; i < m.list.size(); ++i)
        joined.add();
    const auto is_light = [&](int mass) { return m.list[mass].group >= light_from; };
    const int masses = static_cast<int>(m.list.size());
    for (int i = 0; i < masses; ++i)
        for (const Border& b : m.list[i].neighbours)
            if (!is_light(i) && !is_light(b.mass))
                joined.join(i, b.mass);
    std::vector<int> number(m.list.size(), -1);
    for (int i = 0; i < masses; ++i) { // a root has the lowest number of its piece, and comes first
        if (is_light(i))
            continue;
        const int root = joined.root(i);
        if (root == i)
            number[i] = static_cast<int>(c.pieces.size()), c.pieces.emplace_back();
        Piece& piece = c.pieces[number[root]];
        const auto n = static_cast<double>(m.list[i].pixels);
        piece.masses.push_back(i);
        piece.pixels += m.list[i].pixels;
        piece.centre.x_mm += n * m.list[i].centre_x / pixels_per_mm;
        piece.centre.y_mm += n * m.list[i].centre_y / pixels_per_mm;
    }
    std::stable_sort(
        c.pieces.begin(), c.pieces.end(), [](const Piece& a, const Piece& b) { return a.pixels > b.pixels; });
    c.piece_of.assign(m.list.size(), -1);
    for (std::size_t k = 0; k < c.pieces.size(); ++k) {
        Piece& piece = c.pieces[k];
        for (const int i : piece.masses)
            c.piece_of[i] = static_cast<int>(k);
        const auto n = static_cast<double>(piece.pixels);
        piece.area_mm2 = n / (pixels_per_mm * pixels_per_mm);
        piece.centre.x_mm /= n, piece.centre.y_mm /= n;
        c.area_mm2 += piece.area_mm2;
    }
}

/// Masses from which a way leads to the picture's border without crossing the largest piece.
std::vector<bool> open_to_border(const Masses& m, const Connected& c) {
    std::vector<bool> open(m.list.size());
    std::vector<int> next;
    const auto enter = [&](int mass) {
        if (!open[mass] && c.piece_of[mass] != 0)
            open[mass] = true, next.push_back(mass);
    };
    for (int x = 0; x < m.width; ++x)
        enter(m.at(x, 0)), enter(m.at(x, m.height - 1));
    for (int y = 0; y < m.height; ++y)
        enter(m.at(0, y)), enter(m.at(m.width - 1, y));
    while (!next.empty()) {
        const int mass = next.back();
        next.pop_back();
        for (const Border& b : m.list[mass].neighbours)
            enter(b.mass);
    }
    return open;
}

std::vector<LightBeside> lights_beside(const Masses& m, const Connected& c, double pixels_per_mm) {
    const std::vector<bool> open = open_to_border(m, c);
    std::vector<LightBeside> lights;
    for (std::size_t i = 0; i < m.list.size(); ++i) {
        if (c.piece_of[i] >= 0)
            continue;
        std::int64_t sides = 0;
        for (const Border& b : m.list[i].neighbours)
            sides += c.piece_of[b.mass] == 0 ? b.length : 0;
        if (sides > 0)
            lights.push_back({static_cast<int>(i), static_cast<double>(m.list[i].pixels) / (pixels_per_mm * pixels_per_mm),
                              static_cast<double>(sides) / pixels_per_mm, !open[i]});
    }
    std::stable_sort(lights.begin(), lights.end(), [](const LightBeside& a, const LightBeside& b) {
        return a.area_mm2 > b.area_mm2;
    });
    return lights;
}

} // namespace

int lightest_group(const Masses& m) {
    int group = 0;
    for (const Mass& mass : m.list)
        group = std::max(group, mass.group);
    return group;
}

Connected connected_shape(const Masses& m, double pixels_per_mm, const Connecting& how) {
    grid::within("pixels_per_mm", pixels_per_mm, {1e-3, 1000, "pixels/mm"});
    grid::within("island_mm2", how.island_mm2, {0, 1e6, "mm²"});
    grid::within("bridge_mm", how.bridge_mm, {0, 1000, "mm"});
    Connected c;
    find_pieces(m, how.light_from.value_or(lightest_group(m)), pixels_per_mm, c);
    if (c.pieces.empty())
        return c;
    c.share = c.share_after = c.pieces[0].area_mm2 / c.area_mm2;
    c.round = lights_beside(m, c, pixels_per_mm);
    c.bridges = bridges_between(m, c, pixels_per_mm, how);
    if (!c.bridges.empty())
        c.share_after = c.bridges.back().share_after;
    return c;
}

} // namespace tidemark::reference
