/// Lets other programs have the cores: while they are wanted, the loops of the calling thread run on it alone.
///
///   GiveWay way;
///   while (way.during([&] { return run.step(); })) {}
///
/// A loop ends with its last thread. When another program has taken that thread's core the rest wait for a slice of
/// the scheduler, some milliseconds in place of some microseconds: with one busy program on two cores a run took
/// seven times as long as alone, on one thread it takes hardly longer than on an idle machine (measured).
///
/// What tells the two apart is how long one of the program's threads stood ready and got no core, as the kernel counts
/// it (/proc/self/task/*/schedstat): next to nothing with two cores to itself, half the wall time beside one busy
/// program. Threads that sleep at a loop's end are not ready, so it holds for any way of waiting (calm_threads.h).
/// When one has waited above a quarter of the wall time, over 50 ms of steps and what lies between them, the loops go on
/// alone, and try together again after half a second, then 1, 2, at most 4. Where the kernel does not count it they
/// always go on together. Results don't depend on it.
#pragma once
#include <map>
#include <string>

namespace tidemark::grid {

class GiveWay {
  public:
    GiveWay();  ///< with as many threads as the caller's loops use now
    ~GiveWay(); ///< gives them back
    GiveWay(const GiveWay&) = delete;
    GiveWay& operator=(const GiveWay&) = delete;
    template <class F> auto during(F&& step) {
        before_step();
        auto result = step();
        after_step();
        return result;
    }
    bool alone() const { return alone_; }

  private:
    void before_step();
    void after_step();
    int threads_;
    bool alone_ = false;
    double began_s_ = 0;                         ///< this step
    double steps_s_ = 0;                         ///< of the steps since the last judgement
    double since_s_ = 0;                         ///< when that was
    std::map<std::string, double> waited_s_;     ///< as it was then, by thread
    double rest_s_, alone_until_s_ = 0;
};

} // namespace tidemark::grid
