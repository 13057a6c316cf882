/// Loops over the rows of a sheet, and sums that do not depend on the number of threads.
#pragma once
#include <omp.h>

#include <exception>
#include <utility>
#include <vector>

/// Compiles a row kernel for any x86-64, for those with AVX2 and for those with AVX-512, and picks at load time: one
/// binary runs everywhere and loses nothing. Only for free functions with __restrict pointers. Off under the thread
/// sanitizer (a clone's resolver runs before the sanitizer is ready), and elsewhere than on x86-64. -ffp-contract=off
/// makes all clones give the same bytes.
#if defined(__SANITIZE_THREAD__) || defined(__SANITIZE_ADDRESS__) || !defined(__x86_64__)
#define TIDEMARK_CLONES
#elif defined(__has_feature)
#if __has_feature(thread_sanitizer) || __has_feature(address_sanitizer)
#define TIDEMARK_CLONES
#else
#define TIDEMARK_CLONES __attribute__((target_clones("default", "arch=x86-64-v3", "arch=x86-64-v4")))
#endif
#else
#define TIDEMARK_CLONES __attribute__((target_clones("default", "arch=x86-64-v3", "arch=x86-64-v4")))
#endif

namespace tidemark::grid {

/// From how many cells on a loop is shared out: a light loop over that many takes some 5 µs, handing half of it to
/// a thread that still spins about as much. One that sleeps takes 50 µs to wake (calm_threads.h).
/// Results don't depend on it.
inline long parallel_from_cells = 8192;

/// Rows that a thread takes before the next one has its turn: 16 of a sheet, single ones where there are few.
inline int rows_in_turn(int ny) { return ny >= 128 ? 16 : 1; }

/// What rows throw: nothing may leave a loop that is shared out (the program would end there), so it waits for its end.
class ThrownByRows {
  public:
    template <class F> void run(int j, F&& f) {
        try {
            f(j);
        } catch (...) {
#pragma omp critical(tidemark_thrown_by_rows)
            if (!first_ || j < row_) first_ = std::current_exception(), row_ = j;
        }
    }
    void rethrow() const {
        if (first_) std::rethrow_exception(first_);
    }

  private:
    std::exception_ptr first_; ///< of the lowest row, for any number of threads
    int row_ = 0;
};

/// f(j) for every row, shared out among threads in turn, a handful of rows each: water is seldom spread evenly.
/// `cells` is the work in the loop, small jobs run on the calling thread. What the first row throws, of those that do, is thrown when all have been visited.
template <class F> void for_rows(int ny, long cells, F&& f) {
    ThrownByRows thrown;
    const int handful = rows_in_turn(ny);
#pragma omp parallel for schedule(static, handful) if (cells > parallel_from_cells)
    for (int j = 0; j < ny; ++j) thrown.run(j, f);
    thrown.rethrow();
}

/// Sum of f(j) over rows, one partial a row, added in row order: the same bytes for any number of threads.
template <class F> double sum_rows(int ny, long cells, F&& f) {
    std::vector<double> part(ny);
    for_rows(ny, cells, [&](int j) { part[j] = f(j); });
    double sum = 0;
    for (double p : part) sum += p;
    return sum;
}

/// Sum in a fixed order that vector units like: eight lanes, then the lanes.
inline double lane_sum(const double* x, int n) {
    double lane[8] = {};
    int i = 0;
    for (; i + 8 <= n; i += 8)
        for (int k = 0; k < 8; ++k)
            lane[k] += x[i + k];
    for (; i < n; ++i)
        lane[i & 7] += x[i];
    return ((lane[0] + lane[1]) + (lane[2] + lane[3])) + ((lane[4] + lane[5]) + (lane[6] + lane[7]));
}

} // namespace tidemark::grid
