#include <omp.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <fstream>
#include <thread>
#include <vector>

#include "grid/give_way.h"

using namespace tidemark;

namespace {

using Clock = std::chrono::steady_clock;

void spin_until(Clock::time_point end) {
    while (Clock::now() < end) {
    }
}

/// A step of so many milliseconds, beside twice as many busy threads as there are cores.
bool crowded(int ms) {
    const auto end = Clock::now() + std::chrono::milliseconds(ms);
    std::vector<std::jthread> others;
    for (unsigned k = 0; k < 2 * std::max(1u, std::thread::hardware_concurrency()); ++k)
        others.emplace_back([end] { spin_until(end); });
    spin_until(end);
    return true;
}

bool asleep(int ms) {
    std::this_thread::sleep_for(std::chrono::milliseconds(ms));
    return true;
}

} // namespace

TEST_CASE("loops go on alone while threads stand ready and get no core, and together again later", "[law][grid]") {
    const int before = omp_get_max_threads();
    omp_set_num_threads(3);
    {
        grid::GiveWay way;
        CHECK(way.during([] { return true; }));
        CHECK_FALSE(way.alone()); // too short to judge
        way.during([] { return crowded(300); });
        const bool counts = std::ifstream("/proc/thread-self/schedstat").good(); // else nothing is known
        CHECK(way.alone() == counts);
        CHECK((omp_get_max_threads() == 1) == counts);
        way.during([] { return asleep(550); });
        way.during([] { return omp_get_max_threads() == 3; });
        CHECK_FALSE(way.alone());
        CHECK(omp_get_max_threads() == 3);
        way.during([] { return crowded(300); });
        CHECK(way.alone() == counts);
    }
    CHECK(omp_get_max_threads() == 3);
    omp_set_num_threads(before);
}

TEST_CASE("a thread that sleeps keeps nobody waiting", "[law][grid]") {
    const int before = omp_get_max_threads();
    omp_set_num_threads(3);
    {
        grid::GiveWay way;
        way.during([] { return asleep(200); });
        CHECK_FALSE(way.alone());
    }
    omp_set_num_threads(before);
}

TEST_CASE("a step's answer comes through, on one thread as well", "[law][grid]") {
    const int before = omp_get_max_threads();
    omp_set_num_threads(1);
    grid::GiveWay way;
    CHECK(way.during([] { return crowded(60); }));
    CHECK_FALSE(way.during([] { return false; }));
    CHECK_FALSE(way.alone()); // there is nothing to give
    omp_set_num_threads(before);
}
