#include "rehearsal/branches.h"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <memory>
#include <mutex>
#include <new>
#include <thread>

#include "grid/give_way.h"
#include "grid/steady.h"

namespace tidemark::rehearsal {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point then) { return std::chrono::duration<double>(Clock::now() - then).count(); }

/// A run that some variants have in common; it is played as the first of them.
struct Branch {
    std::unique_ptr<Rehearsal> run; ///< none: not begun
    std::vector<int> variants;
    double played_s = 0;
};

/// What another variant of a branch has otherwise than its first.
struct Other {
    int variant = 0;
    std::vector<int> starts, acts;
};

class Player {
  public:
    Player(const plan::Plan& base, const std::vector<plan::Values>& variants, const BranchOptions& options,
           const std::function<void(int, const Rehearsal&)>& finished)
        : base_(base), variants_(variants), options_(options), finished_(finished) {
        times_.whole_s.assign(variants.size(), 0), times_.whole_cells.assign(variants.size(), 0);
        std::vector<Branch> roots;
        for (int v = 0; v < static_cast<int>(variants.size()); ++v) {
            const auto same = std::find_if(roots.begin(), roots.end(), [&](const Branch& b) {
                return plan::same_sheet(variants[b.variants.front()], variants[v]);
            });
            if (same == roots.end())
                roots.push_back({nullptr, {v}, 0});
            else
                same->variants.push_back(v);
        }
        for (auto root = roots.rbegin(); root != roots.rend(); ++root) waiting_.push_back(std::move(*root));
    }

    /// As many as there is memory for: what is played does not depend on how many.
    void make(std::vector<std::thread>& workers) {
        workers.reserve(static_cast<std::size_t>(std::max(1, options_.threads)));
        try {
            for (int k = 0; k < options_.threads; ++k) workers.emplace_back([this] { work(); });
        } catch (const std::exception&) {
            if (workers.empty()) throw std::bad_alloc();
        }
    }

    std::optional<BranchTimes> play(const std::function<bool(const BranchProgress&)>& tell) {
        std::vector<std::thread> workers;
        make(workers);
        bool wanted = tell(BranchProgress{0, static_cast<int>(variants_.size()), 0});
        while (wanted) {
            std::unique_lock lock(mutex_);
            changed_.wait_for(lock, std::chrono::milliseconds(200), [&] { return over(); });
            if (over()) break;
            const BranchProgress now = progress();
            lock.unlock();
            wanted = tell(now);
        }
        {
            const std::lock_guard lock(mutex_);
            stop_ = true;
        }
        changed_.notify_all();
        for (std::thread& w : workers) w.join();
        if (error_) std::rethrow_exception(error_);
        if (!wanted) return std::nullopt;
        return times_;
    }

  private:
    const plan::Plan& base_;
    const std::vector<plan::Values>& variants_;
    const BranchOptions& options_;
    const std::function<void(int, const Rehearsal&)>& finished_;

    std::mutex mutex_; ///< for all below
    std::condition_variable changed_;
    std::vector<Branch> waiting_; ///< the last one is taken next: its sheet is the deepest
    int busy_ = 0, done_ = 0;
    bool stop_ = false;
    std::exception_ptr error_;
    BranchTimes times_;

    bool over() const { return stop_ || error_ || (waiting_.empty() && busy_ == 0); }

    BranchProgress progress() const {
        BranchProgress p{done_, static_cast<int>(variants_.size()), 0};
        if (done_ == 0) return p;
        double own_s = 0;
        for (const double s : times_.whole_s)
            if (s > 0) own_s += s - times_.common_s;
        p.left_s = own_s / done_ * (p.of - p.finished) / options_.threads;
        return p;
    }

    void work() {
        std::unique_lock lock(mutex_);
        for (;;) {
            changed_.wait(lock, [&] { return over() || !waiting_.empty(); });
            if (over()) break;
            Branch branch = std::move(waiting_.back());
            waiting_.pop_back();
            ++busy_;
            lock.unlock();
            std::exception_ptr error;
            try {
                play(branch);
            } catch (...) {
                error = std::current_exception();
            }
            branch.run.reset();
            lock.lock();
            --busy_;
            if (error && !error_) error_ = error;
            changed_.notify_all();
        }
        changed_.notify_all();
    }

    std::vector<Other> others_of(const Branch& branch) const {
        std::vector<Other> others;
        for (std::size_t k = 1; k < branch.variants.size(); ++k) {
            Other other{branch.variants[k], {}, {}};
            for (const plan::Difference& d : plan::differences(variants_[branch.variants[0]], variants_[other.variant])) {
                if (d.start) other.starts.push_back(d.step);
                if (d.act) other.acts.push_back(d.step);
            }
            others.push_back(std::move(other));
        }
        return others;
    }

    /// How many threads a branch has now: one, unless others idle. 0: all is to stop.
    int threads() {
        const std::lock_guard lock(mutex_);
        if (stop_ || error_) return 0;
        return waiting_.empty() ? std::max(1, options_.threads / std::max(1, busy_)) : 1;
    }

    void count(const Branch& branch, double seconds, double cells) {
        const std::lock_guard lock(mutex_);
        times_.all_s += seconds, times_.all_cells += cells;
        if (branch.variants.size() == variants_.size()) times_.common_s += seconds;
        for (const int v : branch.variants) times_.whole_s[v] += seconds, times_.whole_cells[v] += cells;
    }

    /// Those of `others` that go on otherwise become a branch of their own, from here.
    void part(Branch& branch, std::vector<Other>& others, const std::function<bool(const Other&)>& differs) {
        const auto mid = std::stable_partition(others.begin(), others.end(), [&](const Other& o) { return !differs(o); });
        if (mid == others.end()) return;
        Branch parted;
        for (auto o = mid; o != others.end(); ++o) parted.variants.push_back(o->variant);
        others.erase(mid, others.end());
        branch.variants.resize(1);
        for (const Other& o : others) branch.variants.push_back(o.variant);
        parted.run = std::make_unique<Rehearsal>(branch.run->fork(variants_[parted.variants.front()]));
        parted.run->stop_after(stop_after(parted));
        const std::lock_guard lock(mutex_);
        waiting_.push_back(std::move(parted));
        changed_.notify_all();
    }

    const std::vector<int>& stop_after(const Branch& branch) const {
        return options_.stop_after_of.empty() ? options_.stop_after : options_.stop_after_of[branch.variants.front()];
    }

    static void halt_where_acts_differ(Rehearsal& run, const std::vector<Other>& others) {
        std::vector<int> steps;
        for (const Other& o : others) steps.insert(steps.end(), o.acts.begin(), o.acts.end());
        run.halt_before(std::move(steps));
    }

    void play(Branch& branch) {
        int threads_now = threads();
        if (threads_now == 0) return;
        grid::have_threads(threads_now); // before anything is shared out among them
        if (!branch.run) {
            branch.run = std::make_unique<Rehearsal>(plan::plan_of(base_, variants_[branch.variants.front()]), options_.run);
            branch.run->stop_after(stop_after(branch));
        }
        Rehearsal& run = *branch.run;
        std::vector<Other> others = others_of(branch);
        std::optional<grid::GiveWay> way{std::in_place};
        for (bool more = true; more;) {
            const auto holds = [](const std::vector<int>& steps, int k) { return std::find(steps.begin(), steps.end(), k) != steps.end(); };
            if (const auto k = run.halted()) part(branch, others, [&](const Other& o) { return holds(o.acts, *k); });
            part(branch, others, [&](const Other& o) { return !run.starts_alike(o.starts, variants_[o.variant].steps); });
            halt_where_acts_differ(run, others);
            const int threads_next = threads();
            if (threads_next == 0) return;
            if (threads_next != threads_now) {
                way.reset();
                grid::have_threads(threads_next);
                way.emplace();
                threads_now = threads_next;
            }
            const auto began = Clock::now();
            const double cells = run.cost().cell_steps;
            more = way->during([&] { return run.step(); });
            count(branch, seconds_since(began), run.cost().cell_steps - cells);
        }
        for (const int v : branch.variants) finished_(v, run);
        const std::lock_guard lock(mutex_);
        done_ += static_cast<int>(branch.variants.size());
    }
};

} // namespace

std::optional<BranchTimes> play_branches(const plan::Plan& base, const std::vector<plan::Values>& variants,
                                         const BranchOptions& options,
                                         const std::function<void(int, const Rehearsal&)>& finished,
                                         const std::function<bool(const BranchProgress&)>& tell) {
    return Player(base, variants, options, finished).play(tell);
}

} // namespace tidemark::rehearsal
