#include "grid/give_way.h"

#include <omp.h>

#include <algorithm>
#include <ctime>

namespace tidemark::grid {
namespace {

constexpr double window_s = 0.05, least_share = 0.75, first_rest_s = 0.5, longest_rest_s = 4;

double seconds(clockid_t clock) {
    timespec t{};
    clock_gettime(clock, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

} // namespace

GiveWay::GiveWay() : threads_(omp_get_max_threads()), rest_s_(first_rest_s) {}

GiveWay::~GiveWay() { omp_set_num_threads(threads_); }

void GiveWay::before_step() {
    began_s_ = seconds(CLOCK_MONOTONIC);
    began_running_s_ = seconds(CLOCK_THREAD_CPUTIME_ID);
    if (!alone_ || began_s_ < alone_until_s_)
        return;
    alone_ = false;
    omp_set_num_threads(threads_);
}

void GiveWay::after_step() {
    if (alone_ || threads_ == 1)
        return;
    const double now_s = seconds(CLOCK_MONOTONIC);
    wall_s_ += now_s - began_s_;
    running_s_ += seconds(CLOCK_THREAD_CPUTIME_ID) - began_running_s_;
    if (wall_s_ < window_s)
        return;
    if (running_s_ < least_share * wall_s_) {
        alone_ = true;
        omp_set_num_threads(1);
        alone_until_s_ = now_s + rest_s_;
        rest_s_ = std::min(2 * rest_s_, longest_rest_s);
    } else {
        rest_s_ = first_rest_s;
    }
    wall_s_ = running_s_ = 0;
}

} // namespace tidemark::grid
