/// Changed plans, of a sheet or of a patch of it, played side by side and judged: what every piece of advice rests on.
///
/// All of one play() are branches of one run (rehearsal/branches.h), so a trial costs what comes after its change.
#pragma once
#include "judge/edges.h"
#include "judge/wants.h"
#include "plan/plan.h"
#include "plan/variants.h"
#include "rehearsal/branches.h"
#include "sheet/record.h"

#include <functional>
#include <string>
#include <vector>

namespace tidemark::advice {

/// The painter has stopped it.
struct Stopped {};

/// What is being tried, and how far it has come; false: stop.
using Tell = std::function<bool(const std::string& what, const rehearsal::BranchProgress&)>;

struct Trial {
    plan::Values values;
    std::vector<int> stop_after{}; ///< it is over when these steps are done; none: when the sheet is dry
};

/// What became of one.
struct Outcome {
    std::vector<judge::Edge> edges; ///< of a trial without their stretches
    std::vector<judge::WantVerdict> wants;
    std::vector<double> start_s, end_s; ///< by step; NaN: not begun
    const judge::Edge* edge_of(int want) const { return wants[want].edge < 0 ? nullptr : &edges[wants[want].edge]; }
    int met() const; ///< how many wishes
};
Outcome outcome_of(const plan::Plan&, const sheet::Record&, std::vector<judge::Edge>, std::vector<judge::WantVerdict>);

plan::Values as_planned(const plan::Plan&); ///< without copying its masks

/// The first wait until all is dry that the plan has after this step; -1: none.
int drying_after(const plan::Plan&, int step);

class Trials {
  public:
    Trials(const plan::Plan& base, double cell_m, int threads, const Tell& tell)
        : base_(base), cell_m_(cell_m), threads_(threads), tell_(tell) {}
    const plan::Plan& base() const { return base_; }
    double cell_m() const { return cell_m_; }
    /// One for each trial, in their order. Errors: Stopped; as play_branches().
    std::vector<Outcome> play(const std::string& what, const std::vector<Trial>&) const;

  private:
    const plan::Plan& base_;
    double cell_m_;
    int threads_;
    const Tell& tell_;
};

} // namespace tidemark::advice
