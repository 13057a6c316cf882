/// The order of arms, and the waits it leaves, against all orders there are.
#include "reference/arms.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>
#include <numeric>
#include <random>

using namespace tidemark::reference;

namespace {

struct Waits {
    double longest = 0, sum = 0;
};
Waits waits(const std::vector<Arm>& arms, const std::vector<int>& order) {
    Waits w;
    for (const double wait : waited(arms, order)) w.longest = std::max(w.longest, wait), w.sum += wait;
    return w;
}

std::vector<Arm> random_tree(int n, std::mt19937& random) {
    std::vector<Arm> arms(n);
    for (int k = 0; k < n; ++k) {
        arms[k].area = 1 + random() % 20;
        if (k > 0) arms[k].from = {static_cast<int>(random() % k)};
    }
    return arms;
}

/// Arms that meet again, too.
std::vector<Arm> random_shape(int n, std::mt19937& random) {
    std::vector<Arm> arms = random_tree(n, random);
    for (int k = 2; k < n; ++k)
        if (const int f = static_cast<int>(random() % k); random() % 2 && arms[k].from[0] != f) arms[k].from.push_back(f);
    return arms;
}

/// Every order that finishes an arm, and all that goes on from it, before the next arm.
void each_order(const std::vector<Arm>& arms, const std::function<void(const std::vector<int>&)>& see) {
    std::vector<std::vector<int>> to(arms.size());
    for (std::size_t k = 1; k < arms.size(); ++k) to[arms[k].from[0]].push_back(static_cast<int>(k));
    const std::function<void(std::size_t)> arrange = [&](std::size_t k) {
        if (k < arms.size()) {
            std::sort(to[k].begin(), to[k].end());
            do arrange(k + 1);
            while (std::next_permutation(to[k].begin(), to[k].end()));
            return;
        }
        std::vector<int> order;
        const std::function<void(int)> paint = [&](int arm) {
            order.push_back(arm);
            for (const int t : to[arm]) paint(t);
        };
        paint(0);
        see(order);
    };
    arrange(0);
}

} // namespace

TEST_CASE("on a tree the shortest arm first keeps the longest wait least, and the sum of waits", "[law][reference]") {
    std::mt19937 random(7);
    int better_than_some = 0;
    for (int trial = 0; trial < 60; ++trial) {
        const std::vector<Arm> arms = random_tree(2 + trial % 7, random);
        const Waits w = waits(arms, shortest_first(arms));
        Waits least{1e9, 1e9}, most;
        each_order(arms, [&](const std::vector<int>& order) {
            const Waits o = waits(arms, order);
            least.longest = std::min(least.longest, o.longest), least.sum = std::min(least.sum, o.sum);
            most.longest = std::max(most.longest, o.longest);
        });
        CHECK(w.longest == least.longest);
        CHECK(w.sum == least.sum);
        better_than_some += w.longest < most.longest;
    }
    CHECK(better_than_some > 20);
}

TEST_CASE("an arm is painted once, after all it comes from", "[law][reference]") {
    std::mt19937 random(11);
    for (int trial = 0; trial < 200; ++trial) {
        const std::vector<Arm> arms = random_shape(1 + trial % 12, random);
        const std::vector<int> order = shortest_first(arms);
        std::vector<int> at(arms.size(), -1);
        REQUIRE(order.size() == arms.size());
        for (std::size_t k = 0; k < order.size(); ++k) {
            REQUIRE(at[order[k]] < 0);
            at[order[k]] = static_cast<int>(k);
        }
        for (std::size_t k = 0; k < arms.size(); ++k)
            for (const int f : arms[k].from) CHECK(at[f] < at[k]);
    }
    CHECK(shortest_first({}).empty());
}

TEST_CASE("round a light the shorter way is painted first, and its end waits for the longer", "[law][reference]") {
    const std::vector<Arm> ring{{{}, 5}, {{0}, 20}, {{0}, 7}, {{1, 2}, 3}};
    const std::vector<int> order = shortest_first(ring);
    CHECK(order == std::vector<int>{0, 2, 1, 3});
    CHECK(waited(ring, order) == std::vector<double>{0, 7, 0, 20});
    // A third arm from where the ring begins comes before it: the ring holds more.
    const std::vector<Arm> more{{{}, 5}, {{0}, 4}, {{0}, 5}, {{1, 2}, 3}, {{0}, 6}};
    CHECK(shortest_first(more) == std::vector<int>{0, 4, 1, 2, 3});
}
