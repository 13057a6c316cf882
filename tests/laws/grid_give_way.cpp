#include <omp.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "grid/give_way.h"

using namespace tidemark;

namespace {

/// A step during which this thread is kept from running, as it is when its core is wanted.
bool kept_waiting(int ms) {
    std::this_thread::sleep_for(std::chrono::milliseconds(ms));
    return true;
}

} // namespace

TEST_CASE("loops go on alone while the thread is kept from running, and together again later", "[law][grid]") {
    const int before = omp_get_max_threads();
    omp_set_num_threads(3);
    {
        grid::GiveWay way;
        CHECK(way.during([] { return kept_waiting(10); }));
        CHECK_FALSE(way.alone()); // too short to judge
        way.during([] { return kept_waiting(60); });
        CHECK(way.alone());
        CHECK(omp_get_max_threads() == 1);
        way.during([] { return kept_waiting(550); });
        way.during([] { return omp_get_max_threads() == 3; });
        CHECK_FALSE(way.alone());
        CHECK(omp_get_max_threads() == 3);
        way.during([] { return kept_waiting(60); });
        CHECK(way.alone());
    }
    CHECK(omp_get_max_threads() == 3);
    omp_set_num_threads(before);
}

TEST_CASE("a step's answer comes through, on one thread as well", "[law][grid]") {
    const int before = omp_get_max_threads();
    omp_set_num_threads(1);
    grid::GiveWay way;
    CHECK(way.during([] { return kept_waiting(60); }));
    CHECK_FALSE(way.during([] { return false; }));
    CHECK_FALSE(way.alone()); // there is nothing to give
    omp_set_num_threads(before);
}
