#include "grid/geodesic.h"

#include <algorithm>
#include <bit>
#include <cstdlib>

namespace tidemark::grid {

namespace {

/// What waits: the bits of a distance (≥ 0, so they rise with it), then the place.
std::uint64_t entry(float distance, std::size_t place) {
    return static_cast<std::uint64_t>(std::bit_cast<std::uint32_t>(distance)) << 32 | static_cast<std::uint32_t>(place);
}
float distance_of(std::uint64_t entry) { return std::bit_cast<float>(static_cast<std::uint32_t>(entry >> 32)); }

} // namespace

Geodesic::Geodesic(int nx, int ny) : stride_(static_cast<std::size_t>(nx) + 2 * margin), nx_(nx), ny_(ny) {
    const std::size_t places = stride_ * (static_cast<std::size_t>(ny) + 2 * margin);
    state_.assign(places, State::closed);
    distance_.assign(places, unreached);
    hop_of_.assign(places, stay);
    const auto offset = [&](int i, int j) { return j * static_cast<std::ptrdiff_t>(stride_) + i; };
    for (int h = 0; h < hops; ++h)
        hop_[h] = offset(step[h].i, step[h].j), over_[h] = offset(step[h].i / 2, step[h].j / 2);
}

std::vector<Cell> Geodesic::spread(std::span<const Cell> starts, float farthest) {
    constexpr std::size_t buckets = 4; // one cell wide; the longest hop ends in the third after its own
    std::vector<std::uint64_t> waiting[buckets];
    std::vector<Cell> order;
    std::size_t left = 0;
    const auto wait = [&](float distance, std::size_t place, int hop) {
        distance_[place] = distance;
        hop_of_[place] = static_cast<std::uint8_t>(hop);
        waiting[static_cast<std::size_t>(distance) % buckets].push_back(entry(distance, place));
        ++left;
    };
    for (const Cell& s : starts)
        if (state_[at(s)] != State::reached && distance_[at(s)] > 0)
            wait(0, at(s), stay);
    for (std::size_t k = 0; left > 0; k = (k + 1) % buckets) {
        std::vector<std::uint64_t> now;
        now.swap(waiting[k]);
        left -= now.size();
        std::sort(now.begin(), now.end());
        for (const std::uint64_t e : now) {
            const std::size_t place = e & 0xffffffffu;
            const float distance = distance_of(e);
            if (state_[place] == State::reached || distance_[place] != distance)
                continue; // a shorter way was found
            state_[place] = State::reached;
            order.push_back({static_cast<int>(place % stride_) - margin, static_cast<int>(place / stride_) - margin});
            for (int h = 0; h < hops; ++h) {
                const std::size_t to = place + hop_[h];
                const float next = distance + length[h];
                if (state_[to] == State::open && next < distance_[to] && next <= farthest &&
                    (h < straight || state_[place + over_[h]] != State::closed))
                    wait(next, to, h);
            }
        }
    }
    return order;
}

} // namespace tidemark::grid
