/// Lets other programs have the cores: while they are wanted, the loops of the calling thread run on it alone.
///
///   GiveWay way;
///   while (way.during([&] { return run.step(); })) {}
///
/// A loop ends with its last thread. When another program has taken that thread's core the rest wait for a slice of
/// the scheduler, some milliseconds in place of some microseconds: with one busy program on two cores a run took
/// seven times as long as alone, on one thread it takes hardly longer than on an idle machine (measured).
///
/// What tells the two apart is the share of the wall time that the calling thread was running: above 0.9 with the
/// cores to itself, at most 0.65 beside one busy program (measured). Below 0.75 over 50 ms of steps the loops go on
/// alone, and try together again after half a second, then 1, 2, at most 4. Results don't depend on it.
///
/// For programs whose threads spin before they sleep (calm_threads.h): threads told to sleep at every loop's end are
/// not running either, so on small sheets such a program goes on alone, which is then no slower.
#pragma once

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
    double began_s_ = 0, began_running_s_ = 0; ///< this step
    double wall_s_ = 0, running_s_ = 0;        ///< of the steps since the last judgement
    double rest_s_, alone_until_s_ = 0;
};

} // namespace tidemark::grid
