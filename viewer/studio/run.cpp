#include "viewer/studio/run.h"

#include "grid/give_way.h"
#include "grid/steady.h"
#include "plan/coverage.h"
#include "viewer/studio/checkpoints_detail.h"
#include "viewer/studio/moment_maker_detail.h"

#include <atomic>
#include <chrono>
#include <cmath>
#include <mutex>
#include <omp.h>
#include <thread>

namespace tidemark::viewer {

namespace {

using Clock = std::chrono::steady_clock;
double seconds_since(Clock::time_point then) { return std::chrono::duration<double>(Clock::now() - then).count(); }

constexpr double tell_every_s = 0.05;     ///< wall clock
constexpr double while_painted = 1 / 3.0, without_film = 2; ///< times the usual distance of moments
constexpr double checkpoint_every_s = 60; ///< of the plan's clock
constexpr double copying_share = 0.1;     ///< of the time of a run that copies of its state may take
constexpr double finest_place_m = 2.5e-3; ///< of the areas under a pointer
constexpr double few_cells = 15000;       ///< below, a second thread costs more than it brings

bool brush_at_work(const rehearsal::Rehearsal& run) {
    const auto acting = run.acting();
    return acting && !std::holds_alternative<plan::Dry>(run.plan().steps[static_cast<std::size_t>(*acting)].act);
}

} // namespace

struct Run::Inside {
    RunOrder order;
    Reel reel;
    Checkpoints checkpoints;
    std::atomic<bool> cancelled{false};
    Clock::time_point began = Clock::now();
    std::thread thread;

    mutable std::mutex mutex; ///< over what follows
    RunProgress progress;
    std::vector<ActSpan> acts;
    std::vector<StageLine> stages; ///< of every area, then of the sheet
    std::size_t stages_read = 0;
    std::vector<std::pair<double, double>> work; ///< time of the plan, seconds of work
    double work_before_s = 0;                    ///< of the run that it goes on from
    std::shared_ptr<const Outcome> outcome;
    std::vector<std::pair<int, grid::Field<float>>> places; ///< area and what it covers; what is worked on last first

    explicit Inside(RunOrder o) : order(std::move(o)), reel(order.reel_bytes), checkpoints(order.checkpoint_bytes) {
        for (std::size_t a = 0; a <= order.plan->areas.size(); ++a)
            stages.push_back({a < order.plan->areas.size() ? static_cast<int>(a) : plan::whole_sheet, {}});
    }
    void news() const {
        if (order.news) order.news();
    }
    void set(RunProgress::Is is, std::string problem = {}) {
        {
            const std::lock_guard lock(mutex);
            progress.is = is, progress.problem = std::move(problem);
            progress.wall_s = seconds_since(began);
            if (progress.over()) progress.left_wall_s = 0, progress.acting.reset();
        }
        news();
    }

    void play_all();
    rehearsal::Rehearsal begin();
    bool play(rehearsal::Rehearsal&);
    bool acts_changed(const sheet::Record&) const;
    void note(const rehearsal::Rehearsal&, double worked_s);
    double left_s(double time_s, double worked_s) const;
    void judge(const rehearsal::Rehearsal&);
    void find_places();
};

/// From the latest state that serves, of the earlier runs; else from the bare sheet.
rehearsal::Rehearsal Run::Inside::begin() {
    std::optional<rehearsal::Rehearsal> best;
    const Inside* of = nullptr;
    for (const auto& run : order.earlier)
        if (auto state = run->in_->checkpoints.serve(*order.plan, order.cell_m); state && (!best || state->time_s() > best->time_s()))
            best = std::move(state), of = run->in_.get();
    if (best) {
        checkpoints.begin_as(of->checkpoints, best->time_s());
        reel.begin_as(of->reel, best->time_s());
        const std::scoped_lock lock(mutex, of->mutex);
        progress.from_s = best->time_s();
        for (const auto& w : of->work)
            if (w.first <= best->time_s()) work.push_back(w);
        if (!work.empty()) work_before_s = work.back().second;
        return std::move(*best);
    }
    plan::Plan plan = *order.plan;
    plan.reference.reset(); // it is judged by it, not painted; and states are copied
    return rehearsal::Rehearsal(plan, {.cell_m = order.cell_m});
}

bool Run::Inside::acts_changed(const sheet::Record& record) const {
    if (record.acts.size() != acts.size()) return true;
    for (std::size_t k = 0; k < acts.size(); ++k)
        if (record.acts[k].ended != acts[k].ended) return true;
    return false;
}

void Run::Inside::note(const rehearsal::Rehearsal& run, double worked_s) {
    const sheet::Record& record = run.record();
    const std::lock_guard lock(mutex);
    progress.time_s = run.time_s();
    progress.wall_s = seconds_since(began);
    const double guess_s = order.like ? order.like->progress().end_s : run.end_guess_s();
    progress.end_s = std::max(run.time_s(), guess_s);
    progress.acting = run.acting();
    progress.left_wall_s = left_s(run.time_s(), worked_s);
    acts.clear();
    for (const sheet::ActRecord& a : record.acts)
        acts.push_back({a.step, a.start_s, a.ended ? a.end_s : run.time_s(), a.ended, a.waited_s, a.gave_up, a.waited_for});
    for (; stages_read < record.stages.size(); ++stages_read) {
        const sheet::StageSample& s = record.stages[stages_read];
        StageLine& line = stages[s.area < 0 ? stages.size() - 1 : static_cast<std::size_t>(s.area)];
        line.samples.push_back({s.time_s, {float(s.share[0]), float(s.share[1]), float(s.share[2]), float(s.share[3])}});
    }
    if (work.empty() || run.time_s() > work.back().first) work.emplace_back(run.time_s(), work_before_s + worked_s);
}

/// By the run that this one is like, else as if the rest went on like what was.
double Run::Inside::left_s(double time_s, double worked_s) const {
    const double from_s = progress.from_s;
    double done = 0;
    if (order.like) {
        const double before = order.like->work_s(from_s), all = order.like->work_s(1e9) - before;
        done = all > 0 ? (order.like->work_s(time_s) - before) / all : 0;
    } else {
        done = (time_s - from_s) / std::max(1.0, progress.end_s - from_s);
    }
    return worked_s < 0.5 || done < 0.02 ? -1 : worked_s * (1 - done) / done;
}

/// False when it was cancelled.
bool Run::Inside::play(rehearsal::Rehearsal& run) {
    const auto began_s = Clock::now();
    MomentMaker maker(reel, order.news);
    double told_s = -1, copied_s = 0, next_moment_s = 0, next_state_s = run.time_s() + checkpoint_every_s;
    grid::GiveWay way;
    const auto moment = [&](bool matters) {
        if (!maker.has_room(matters)) return;
        maker.add(run.sheet(), matters);
        const double every_s = order.moment_every_s * (brush_at_work(run) ? while_painted : run.sheet().film_tiles.any() ? 1 : without_film);
        next_moment_s = run.time_s() + every_s;
    };
    const auto lay_aside = [&] {
        const double worked_s = seconds_since(began_s);
        if (copied_s > copying_share * worked_s + 0.05) return;
        const auto from = Clock::now();
        checkpoints.add(run);
        copied_s += seconds_since(from);
        next_state_s = run.time_s() + checkpoint_every_s;
    };
    moment(true);
    note(run, 0);
    find_places();
    while (way.during([&] { return run.step(); })) {
        if (cancelled) return false;
        const bool changed = acts_changed(run.record());
        const double worked_s = seconds_since(began_s);
        if (changed || worked_s - told_s > tell_every_s) {
            note(run, worked_s);
            told_s = worked_s;
            news();
        }
        if (changed || run.time_s() >= next_moment_s) moment(changed);
        if (changed || run.time_s() >= next_state_s) lay_aside();
    }
    note(run, seconds_since(began_s));
    moment(true);
    maker.finish();
    return !cancelled;
}

void Run::Inside::find_places() {
    const plan::Plan& p = *order.plan;
    const double cell_m = std::max(order.cell_m, finest_place_m);
    const int nx = std::max(1, static_cast<int>(std::lround(p.width_m / cell_m)));
    const int ny = std::max(1, static_cast<int>(std::lround(p.height_m / cell_m)));
    std::vector<std::pair<int, grid::Field<float>>> found;
    for (auto s = p.steps.rbegin(); s != p.steps.rend() && !cancelled; ++s) {
        const auto same = [&](const auto& f) { return f.first == s->area(); };
        if (s->area() >= 0 && std::none_of(found.begin(), found.end(), same)) found.emplace_back(s->area(), plan::coverage(p, s->area(), nx, ny));
    }
    const std::lock_guard lock(mutex);
    places = std::move(found);
}

void Run::Inside::judge(const rehearsal::Rehearsal& run) {
    auto out = std::make_shared<Outcome>(Outcome{order.plan, order.cell_m, order.draft, run.record(),
                                                 sheet::look(run.sheet(), sheet::LookAs::dried), run.sheet().geometry, {}});
    out->verdicts = judge::judge_run(*order.plan, out->record, out->dried.lstar, out->geometry);
    const std::lock_guard lock(mutex);
    outcome = std::move(out);
    progress.end_s = progress.time_s = run.time_s();
}

void Run::Inside::play_all() {
    step_back();
    const auto& p = *order.plan;
    const bool few = p.width_m * p.height_m / (order.cell_m * order.cell_m) < few_cells;
    grid::have_threads(order.threads > 0 ? order.threads : few ? 1 : omp_get_num_procs());
    try {
        set(RunProgress::Is::painting);
        rehearsal::Rehearsal run = begin();
        if (!play(run)) return set(RunProgress::Is::stopped);
        set(RunProgress::Is::judging);
        judge(run);
        set(cancelled ? RunProgress::Is::stopped : RunProgress::Is::finished);
    } catch (const std::exception& e) {
        set(RunProgress::Is::failed, e.what());
    }
}

std::shared_ptr<Run> Run::begin(RunOrder order) {
    auto in = std::make_shared<Inside>(std::move(order));
    auto run = std::shared_ptr<Run>(new Run(in));
    in->thread = std::thread([in] {
        in->play_all();
        const std::lock_guard lock(in->mutex);
        in->order.earlier.clear(), in->order.like.reset(); // what they kept is not needed any more
    });
    return run;
}

Run::Run(std::shared_ptr<Inside> in) : in_(std::move(in)) {}
Run::~Run() {
    in_->cancelled = true;
    if (in_->thread.joinable()) in_->thread.detach(); // it keeps what it needs
}

void Run::cancel() { in_->cancelled = true; }
void Run::wait() const {
    if (in_->thread.joinable()) in_->thread.join();
}

RunProgress Run::progress() const {
    const std::lock_guard lock(in_->mutex);
    return in_->progress;
}
std::vector<ActSpan> Run::acts() const {
    const std::lock_guard lock(in_->mutex);
    return in_->acts;
}
StageLine Run::stages(int area) const {
    const std::lock_guard lock(in_->mutex);
    const std::size_t last = in_->stages.size() - 1;
    return in_->stages[area < 0 ? last : std::min(last, static_cast<std::size_t>(area))];
}
std::shared_ptr<const Outcome> Run::outcome() const {
    const std::lock_guard lock(in_->mutex);
    return in_->progress.is == RunProgress::Is::finished ? in_->outcome : nullptr;
}
std::vector<std::string> Run::areas_at(double x_mm, double y_mm) const {
    const std::lock_guard lock(in_->mutex);
    const plan::Plan& p = *in_->order.plan;
    std::vector<std::string> names;
    for (const auto& [area, covers] : in_->places) {
        const int i = static_cast<int>(x_mm * 1e-3 / p.width_m * covers.nx()), j = static_cast<int>(y_mm * 1e-3 / p.height_m * covers.ny());
        if (i >= 0 && j >= 0 && i < covers.nx() && j < covers.ny() && covers(i, j) >= plan::half_covered)
            names.push_back(p.areas[static_cast<std::size_t>(area)].name);
    }
    return names;
}
double Run::work_s(double time_s) const {
    const std::lock_guard lock(in_->mutex);
    double s = 0;
    for (const auto& [time, worked] : in_->work)
        if (time <= time_s) s = worked;
    return s;
}
const Reel& Run::reel() const { return in_->reel; }
const plan::Plan& Run::plan() const { return *in_->order.plan; }
std::shared_ptr<const plan::Plan> Run::shared_plan() const { return in_->order.plan; }
double Run::cell_m() const { return in_->order.cell_m; }
bool Run::draft() const { return in_->order.draft; }

} // namespace tidemark::viewer
