/// How long the next step may be.
///
///   film     dt ← min(1.5 dt, dt · max(0.3, 0.15/change)), not below one second for that: what a landing stroke does
///            in its first moment the scheme damps instead of following it; then no more than so many cells of
///            film waves: 2 dx / speed where a front advances over dry paper, 4 dx / speed on a tilted board (a
///            draining wash is then within 1.2 % of one followed in eight times as many steps; at 8 dx / speed 1.7 %,
///            and no fewer cycles of the solver); at most 8 s. Many cycles shorten it; a solve that failed halves it, and the
///            next step then grows from what was taken.
///            under a dryer that blows one way no more than one cell, for its push is taken at the old depth
///   landing  two seconds at most, and by the speed that the deepest film touched will have on a tilted board
///   quiet    no film anywhere: up to 30 s
#pragma once
#include "water/flow.h"

namespace tidemark::rehearsal {

class StepSize {
  public:
    double film_s() const { return film_s_; }
    void landed(double wave_m_s, double cell_m);     ///< water has arrived; wave_m_s: 0 on a level board
    void refused(double tried_s);
    void accepted(const water::StepResult&, double taken_s, double cell_m, double cells_a_step); ///< 0: no limit
    static constexpr double longest_film_s = 8, longest_quiet_s = 30, settling_s = 1, shortest_s = 1e-3, landing_s = 2;

    static constexpr double cells_spreading = 2, cells_draining = 4, cells_blown = 1;
    template <class A, class Self> static void archive(A& a, Self& self) { ///< grid/archive.h
        auto& [film_s, refused] = self;
        a(film_s, refused);
    }

  private:
    double film_s_ = landing_s;
    bool refused_ = false; ///< before the last step that was taken
};

} // namespace tidemark::rehearsal
