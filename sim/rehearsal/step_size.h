/// How long the next step may be.
///
///   film     dt ← min(1.5 dt, dt · max(0.3, 0.15/change), C dx / speed),  at most 4 s, at least 1 ms;
///            C = 4 where every edge is pinned, else 2; a solve of more than 12 cycles shortens it, one that failed
///            halves it; 20 ms after something has landed
///   quiet    no film anywhere: up to 30 s
#pragma once
#include "water/flow.h"

namespace tidemark::rehearsal {

class StepSize {
  public:
    double film_s() const { return film_s_; }
    void landed();                                   ///< water has arrived
    void refused(double tried_s);
    void accepted(const water::StepResult&, double taken_s, double cell_m, bool pinned);
    static constexpr double longest_film_s = 4, longest_quiet_s = 30, shortest_s = 0.25, landing_s = 0.25;

  private:
    double film_s_ = landing_s;
};

} // namespace tidemark::rehearsal
