/// A plan rehearsed in the background, on a thread of its own that gives way to the window.
///
///   const auto run = Run::begin({.plan = plan, .cell_m = 2e-3, .news = wake_the_window});
///   run->progress(), run->acts(), run->reel().at(time_s, parts_for(look)) ...   // at any time, none of them waits
///   run->outcome()                                                              // once it is finished
///
/// The steps are those of `tidemark rehearse` with the same plan and cell: the finished sheet has the same bytes. cancel()
/// returns at once; the thread ends with the step that it is at (a judgement is not cut short). Destroying a Run cancels it and
/// doesn't wait: a program waits for its runs before it ends, or leaves by _exit().
#pragma once
#include "judge/judge_run.h"
#include "plan/plan.h"
#include "rehearsal/rehearsal.h"
#include "sheet/look.h"
#include "viewer/studio/reel.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace tidemark::viewer {

class Run;

struct RunProgress {
    enum class Is { waiting, painting, judging, finished, stopped, failed };
    Is is = Is::waiting;
    double time_s = 0;         ///< of the plan's clock
    double end_s = 0;          ///< guessed while it paints, true when it is finished
    double from_s = 0;         ///< where it took over what another run had painted
    double wall_s = 0;         ///< since it began
    double left_wall_s = -1;   ///< guessed; below 0: not known yet
    std::optional<int> acting; ///< step of the plan that the hand is at
    std::string problem;       ///< when it failed: one sentence
    bool over() const { return is == Is::finished || is == Is::stopped || is == Is::failed; }
};

/// An act as it was played so far.
struct ActSpan {
    int step = 0;
    double start_s = 0, end_s = 0; ///< end: the present moment while it lasts
    bool ended = false;
    double waited_s = 0;
    bool gave_up = false;
    std::string waited_for;        ///< "sky damp"; empty: for no stage
};

/// How an area went through its stages: the share that is in each, by time.
struct StageLine {
    int area = -1;                 ///< of the plan; -1: the whole sheet
    struct Sample {
        double time_s = 0;
        float share[4] = {0, 0, 0, 0}; ///< wet, moist, damp, dry
    };
    std::vector<Sample> samples;
};

struct Outcome {
    std::shared_ptr<const plan::Plan> plan;
    double cell_m = 0;
    bool draft = false;            ///< on coarse cells: its words for edges are a draft's
    sheet::Record record;
    sheet::Look dried;
    sheet::Geometry geometry;
    judge::Verdicts verdicts;
};

struct RunOrder {
    std::shared_ptr<const plan::Plan> plan;
    double cell_m = 0.5e-3;
    bool draft = false;
    double moment_every_s = 15;    ///< moments are kept so often, thrice as often while a brush is at work, half as often
                                   ///< when no film is left; and at every beginning and end of an act
    std::size_t reel_bytes = usual_reel_bytes;
    std::size_t checkpoint_bytes = 512u << 20;
    int threads = 0;               ///< 0: one a core
    std::vector<std::shared_ptr<const Run>> earlier{}; ///< of plans like this: what one has in common is not painted again
    std::shared_ptr<const Run> like{};    ///< a finished run, by which the time left is guessed
    std::function<void()> news{};  ///< from the run's thread: there is something new to show
};

class Run {
  public:
    static std::shared_ptr<Run> begin(RunOrder);
    ~Run();
    Run(const Run&) = delete;
    Run& operator=(const Run&) = delete;

    RunProgress progress() const;
    std::vector<ActSpan> acts() const;
    StageLine stages(int area) const;
    const Reel& reel() const;
    const plan::Plan& plan() const;
    std::shared_ptr<const plan::Plan> shared_plan() const;
    double cell_m() const;
    bool draft() const;
    std::shared_ptr<const Outcome> outcome() const; ///< none before it is finished
    /// Of the areas that acts are done in, those that cover the place, to a cell or 2.5 mm; what is worked on last first.
    /// Empty until the run has got that far.
    std::vector<std::string> areas_at(double x_mm, double y_mm) const;
    void cancel();
    void wait() const; ///< for tests and for the end of a program

    /// Seconds of work that had gone into it when it came to that time of the plan.
    double work_s(double time_s) const;

  private:
    struct Inside;
    explicit Run(std::shared_ptr<Inside>);
    std::shared_ptr<Inside> in_;
};

} // namespace tidemark::viewer
