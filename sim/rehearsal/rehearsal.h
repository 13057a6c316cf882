/// Plays a plan on a sheet, step by step, and keeps the record.
///
///   Rehearsal r(plan, {.cell_m = 0.5e-3});
///   while (r.step()) {}
///   r.sheet(), r.record()
///
/// A step takes the largest time step that film, acts and questions allow (step_size.h): the hand lays what is due, the
/// film moves and pigment with it. On a tilted board brisk parts of the sheet, and what the hand lays in them meanwhile,
/// take finer steps than the rest (brisk.h). What is slow (paper drinks, air takes, pigment settles) follows once a
/// quarter of a second has gathered or a step in parts has been taken (two seconds at most), at every event, and before
/// any beginning, end, look or ledger. Acts start by clock, after another act, or when an area has
/// reached a stage (acts.cpp). The ledger is checked at every recorded moment: InternalError when it does not close.
///
/// A Rehearsal is a value: a copy is a fork that goes on by itself. The same plan and options give the same bytes for
/// any number of threads.
#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "air/evaporate.h"
#include "fibre/advance.h"
#include "grid/archive.h"
#include "hand/touch.h"
#include "pigment/advance.h"
#include "pigment/rim.h"
#include "pigment/workspace.h"
#include "plan/plan.h"
#include "plan/variants.h"
#include "rehearsal/brisk.h"
#include "rehearsal/count_stages.h"
#include "rehearsal/step_size.h"
#include "sheet/record.h"
#include "water/flow.h"

namespace tidemark::rehearsal {

struct Options {
    double cell_m = 0.5e-3;
    double until_s = 0;         ///< 0: until the sheet is dry
    double sample_every_s = 15; ///< stages of the areas
    double check_every_s = 60;  ///< ledger
    double frame_every_s = 0;   ///< 0: none; step() stops exactly on these moments
    bool in_parts = true;       ///< brisk.h; else all takes the steps of the briskest cell: to compare
    double longest_s = 24 * 3600; ///< a sheet that is still not dry by then is left
    bool sleep = true;          ///< false: all tiles are awake, all pigments looked for: to see what sleep changes
};

/// What a run cost, for the bench.
struct Cost {
    long film_steps = 0, brisk_steps = 0, quiet_steps = 0, cycles = 0, refused = 0;
    double cell_steps = 0;      ///< awake film cells, summed over film steps
    double seconds[6] = {};     ///< hand, film, pigment, fibre and air, wake and stages, ledger
};

/// What steps in parts need (parts.cpp). Nothing in it is state: a copy of a run begins without.
struct BriskScratch {
    std::unique_ptr<water::FilmSolver> film;
    pigment::PigmentWorkspace pigment;
    pigment::RimCarriage carriage;
    std::vector<sheet::RimFace> rim;
    sheet::Field<float> low;
    BriskScratch() = default;
    BriskScratch(const BriskScratch&) {}
    BriskScratch& operator=(const BriskScratch&) { return *this = BriskScratch(); }
    BriskScratch(BriskScratch&&) = default;
    BriskScratch& operator=(BriskScratch&&) = default;
};

class Rehearsal {
  public:
    Rehearsal(const plan::Plan&, const Options&);
    bool step();                               ///< false when it is over; nothing is done then
    const sheet::SheetState& sheet() const { return sheet_; }
    const sheet::Record& record() const { return record_; }
    const Cost& cost() const { return cost_; }
    double time_s() const { return sheet_.time_s; }
    std::optional<int> acting() const;         ///< the plan's step that the hand is at, if any
    bool frame_due() const { return frame_due_; } ///< this moment is one of frame_every_s
    double end_guess_s() const;                ///< of simulated time, for a progress line

    const plan::Plan& plan() const { return plan_; }
    const Options& options() const { return options_; }

    /// It ends at the moment at which all these steps are done; none: as the options say.
    void stop_after(std::vector<int> steps) { stop_after_ = std::move(steps); }

    // A run that goes on as another variant of its plan (fork.cpp, branches.h). What it has done so far must be what that
    // variant would have done: before each step() starts_alike(), and no halt passed where an act differs.

    /// Whether the next step() is the same with `other`, whose starts differ in these steps from this run's.
    bool starts_alike(const std::vector<int>& steps, const std::vector<plan::Step>& other) const;
    /// step() returns in the middle, without going on in time, when one of these is about to begin: halted(). The next call
    /// goes on from there. Nothing is changed by that. Such a moment can't be kept.
    void halt_before(std::vector<int> steps) { halt_before_ = std::move(steps); }
    std::optional<int> halted() const { return halted_ ? std::optional(halted_->step) : std::nullopt; }
    bool begun(int step) const { return steps_[step].begun; }
    /// Errors: InternalError when a step that has begun differs.
    Rehearsal fork(const plan::Values&) const;
    /// Exchanges the masks of the plan's areas, one an area, for others. A state that is only laid aside needs none, and they
    /// are most of what it weighs; before it steps again it must have them back.
    void exchange_masks(std::vector<grid::GreyPicture>&);

    /// The whole state at this moment, and a run that goes on from there: made for the same plan and cell, it reads what
    /// the other has kept. Used through kept.h, which knows whose state it is. Errors: BadInput.
    void keep(grid::ArchiveWriter&) const;
    void go_on_from(grid::ArchiveReader&);

  private:
    static constexpr double stages_every_s_ = 2; ///< no look at them is older when one is asked for
    struct StepState {
        bool begun = false, done = false;
        double end_s = 0;
        int act = -1;          ///< in record_.acts
        hand::Work work;
        double tick_s = 0;     ///< how finely the hand is followed
        double next_tick_s = 0; ///< when it lays the next strokes
    };
    plan::Plan plan_;
    Options options_;
    sheet::SheetState sheet_;
    sheet::Record record_;
    sheet::Ledger ledger_;
    Cost cost_;
    water::FilmParams film_params_;
    water::FilmSolver film_;
    air::AirWorkspace air_;
    fibre::FibreWorkspace fibre_;
    pigment::PigmentWorkspace pigment_;
    StepSize step_size_;
    std::vector<StepState> steps_;
    std::vector<AreaCells> areas_;
    std::vector<sheet::StageSample> stages_now_; ///< of every area and the sheet (last)
    materials::Room room_;                  ///< as the plan has it
    double next_sample_s_ = 0, next_check_s_ = 0, next_frame_s_ = 0, stages_at_s_ = -1;
    double slow_s_ = 0;                     ///< that uptake, drying and settling are behind the film
    int since_wake_ = 0;
    bool over_ = false, frame_due_ = false, must_wake_ = true;
    /// How a wait stands: for how long, for what, how much of it has got there.
    struct Wait {
        double waited_s = 0, share = 0, needed = 0;
        bool gave_up = false;
        std::string what;      ///< "sky damp"; empty: for no stage
    };
    struct Halt {
        int step = 0;
        Wait wait;
    };
    std::vector<int> stop_after_, halt_before_;
    std::optional<Halt> halted_;
    bool after_the_hand_ = false, landed_ = false; ///< how far a step() has come that halted
    float deepest_touched_m_ = 0; ///< film in cells that have been touched since the last step
    TileFlags touched_;           ///< in which tiles, and those that the hand comes to next
    TileFlags coming_;            ///< within the reach of water that it brings next
    double coming_wave_m_s_ = 0;  ///< on what it will have laid there
    BriskScratch brisk_;

    template <class A, class Self> static void archive(A&, Self&);
    bool begin_and_end_acts(); ///< false: halted
    bool start_matters(int step, const std::vector<plan::Step>&) const;
    double earliest_end_s(int step, const std::vector<plan::Step>&) const;
    bool has_done_enough() const;
    bool goes_on();
    void move_on();
    bool hand_is_busy() const;
    bool may_begin(int step, Wait&);
    void begin(int step, const Wait&);
    void end(int step);
    void set_air();
    bool look_how_far(int area, plan::Stage, double needed, Wait&);
    bool wait_is_over(const StepState&, const plan::Dry&, Wait&);
    void warn_of_start(const plan::Step&, const StepState&, const Wait&);
    void warn_of_edge(const plan::Step&, const sheet::LeftBehind&);
    void warn_of_resist(const plan::Step&, const hand::Work&);
    bool all_done() const;
    bool play_hand();
    void flag(TileFlags&, int i, int j) const;
    void look_at_touched(const hand::Work&, std::size_t from);
    void look_at_coming(const hand::Work&, double until_s);
    bool hand_has_finished() const;
    double fastest_wave_m_s() const;
    double next_event_s() const;
    double next_tick_s() const;
    void catch_up();
    void advance_processes(double dt_s);
    double cells_a_step() const;
    double solve_film(water::FilmSolver&, double dt_s, double cells_a_step);
    double advance_film(double longest_s);
    double advance_in_parts(Parts&, double cells_a_step);
    bool steps_in_parts() const;
    void look_ahead_of_the_hand();
    bool wake_what_is_coming();
    void land_in_part();
    void step_brisk_tiles(const Parts&, double cells_a_step);
    double advance_brisk(double dt_s, double cells_a_step);
    void wake_if_due();
    void look_at_stages();
    void record_moment();
    void finish();
};

} // namespace tidemark::rehearsal
