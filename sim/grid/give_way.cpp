#include "grid/give_way.h"

#include <omp.h>

#include <algorithm>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <system_error>
#include <utility>

#include "grid/steady.h"

namespace tidemark::grid {
namespace {

constexpr double window_s = 0.05, most_waiting = 0.25, first_rest_s = 0.5, longest_rest_s = 4;

double now_s() {
    timespec t{};
    clock_gettime(CLOCK_MONOTONIC, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

/// Of each thread of this program, since it began; empty where the kernel does not say.
std::map<std::string, double> kept_waiting_s() {
    std::map<std::string, double> all;
    std::error_code none;
    for (std::filesystem::directory_iterator task("/proc/self/task", none), end; !none && task != end; task.increment(none)) {
        std::ifstream counts(task->path() / "schedstat");
        double ran_ns = 0, waited_ns = 0;
        if (counts >> ran_ns >> waited_ns)
            all[task->path().filename()] = 1e-9 * waited_ns;
    }
    return all;
}

/// Of the thread that waited longest, of those that were there before: a loop ends with its last one.
double longest_s(const std::map<std::string, double>& before, const std::map<std::string, double>& after) {
    double longest = 0;
    for (const auto& [thread, waited_s] : after)
        if (const auto then = before.find(thread); then != before.end())
            longest = std::max(longest, waited_s - then->second);
    return longest;
}

} // namespace

GiveWay::GiveWay()
    : threads_(omp_get_max_threads()), since_s_(now_s()), waited_s_(kept_waiting_s()), rest_s_(first_rest_s) {}

GiveWay::~GiveWay() { omp_set_num_threads(threads_); }

void GiveWay::before_step() {
    began_s_ = now_s();
    if (!alone_ || began_s_ < alone_until_s_)
        return;
    alone_ = false;
    have_threads(threads_); // those that were let go
    steps_s_ = 0, since_s_ = began_s_, waited_s_ = kept_waiting_s();
}

void GiveWay::after_step() {
    if (alone_ || threads_ == 1)
        return;
    const double now = now_s();
    steps_s_ += now - began_s_;
    if (steps_s_ < window_s)
        return;
    auto waited_s = kept_waiting_s();
    if (longest_s(waited_s_, waited_s) > most_waiting * (now - since_s_)) {
        alone_ = true;
        omp_set_num_threads(1);
        alone_until_s_ = now + rest_s_;
        rest_s_ = std::min(2 * rest_s_, longest_rest_s);
    } else {
        rest_s_ = first_rest_s;
    }
    steps_s_ = 0, since_s_ = now, waited_s_ = std::move(waited_s);
}

} // namespace tidemark::grid
