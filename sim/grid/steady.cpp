#include "grid/steady.h"

#include <fcntl.h>
#include <omp.h>
#include <pthread.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <mutex>
#include <new>
#include <string_view>

#include "grid/problem.h"

namespace tidemark::grid {

namespace {

constexpr int most_threads = 256;

[[noreturn]] void out_of_reach() {
    std::string_view line = "internal error: an exception that nobody took\n";
    try {
        if (const auto what = std::current_exception()) std::rethrow_exception(what);
    } catch (const std::bad_alloc&) {
        line = "out of memory; nothing was written\n";
    } catch (...) {
    }
    if (::write(STDERR_FILENO, line.data(), line.size()) < 0) _exit(3);
    _exit(3);
}

bool one_was_meant = false;

/// The OpenMP runtime ends a program that has no memory for its teams with 1, and a line of its own.
void look_at_exit_code(int code, void*) {
    if (code == 1 && !one_was_meant) _exit(3);
}

/// Threads that wait for each other, so that all of them are there at once.
struct Trial {
    pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
    pthread_cond_t over = PTHREAD_COND_INITIALIZER;
    bool is_over = false;
};

void* wait_for_the_end(void* given) {
    auto& trial = *static_cast<Trial*>(given);
    pthread_mutex_lock(&trial.lock);
    while (!trial.is_over) pthread_cond_wait(&trial.over, &trial.lock);
    pthread_mutex_unlock(&trial.lock);
    return nullptr;
}

} // namespace

void stand_firm() {
    for (int stream = 0; stream <= 2; ++stream)
        if (fcntl(stream, F_GETFD) < 0 && errno == EBADF) {
            // The lowest number is taken. Reading gives the end, writing the error that it would have given.
            const int held = open("/dev/null", stream == 0 ? O_RDONLY : O_RDONLY | O_CLOEXEC);
            if (held > stream) close(held);
        }
    std::signal(SIGPIPE, SIG_IGN);
    std::signal(SIGXFSZ, SIG_IGN);
    std::set_terminate(out_of_reach);
    on_exit(look_at_exit_code, nullptr);
}

void mean_one() { one_was_meant = true; }

void check_said() {
    std::cout.flush();
    if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0 || !std::cout.good()) throw IoError(not_said);
}

int have_threads(int wanted) {
    static std::mutex one_at_a_time; // else two that ask at once would each count on the same memory
    const std::lock_guard lock(one_at_a_time);
    wanted = std::min(wanted, most_threads);
    Trial trial;
    pthread_t made[most_threads];
    int others = 0;
    while (others + 1 < wanted && pthread_create(&made[others], nullptr, wait_for_the_end, &trial) == 0) ++others;
    pthread_mutex_lock(&trial.lock);
    trial.is_over = true;
    pthread_cond_broadcast(&trial.over);
    pthread_mutex_unlock(&trial.lock);
    for (int k = 0; k < others; ++k) pthread_join(made[k], nullptr);
    const int threads = others + 1;
    omp_set_num_threads(threads);
#pragma omp parallel num_threads(threads)
    {
    }
    return threads;
}

} // namespace tidemark::grid
