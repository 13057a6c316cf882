/// Where the time of a run goes. Private to the room.
#pragma once
#include <chrono>

namespace tidemark::rehearsal {

/// Adds the time until it goes out of scope.
class Stopwatch {
  public:
    explicit Stopwatch(double& sum) : sum_(sum), start_(std::chrono::steady_clock::now()) {}
    ~Stopwatch() { sum_ += std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count(); }
    Stopwatch(const Stopwatch&) = delete;
    Stopwatch& operator=(const Stopwatch&) = delete;

  private:
    double& sum_;
    std::chrono::steady_clock::time_point start_;
};

} // namespace tidemark::rehearsal
