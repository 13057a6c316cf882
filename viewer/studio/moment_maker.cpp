#include "viewer/studio/moment_maker_detail.h"

#include "viewer/studio/snapshot_detail.h"

#include <omp.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace tidemark::viewer {

namespace {

constexpr std::size_t most_waiting = 3, most_that_matter = 24;
constexpr int stands_back = 5; ///< more nice than the window

} // namespace

void step_back() {
    const int window = getpriority(PRIO_PROCESS, static_cast<id_t>(getpid()));
    setpriority(PRIO_PROCESS, static_cast<id_t>(syscall(SYS_gettid)), window + stands_back); // of no harm when refused
}

MomentMaker::MomentMaker(Reel& reel, std::function<void()> news)
    : reel_(reel), news_(std::move(news)), thread_([this] { work(); }) {}

MomentMaker::~MomentMaker() {
    {
        const std::lock_guard lock(mutex_);
        ends_ = true;
        waiting_.clear();
    }
    changed_.notify_all();
    thread_.join();
}

bool MomentMaker::has_room(bool matters) const {
    const std::lock_guard lock(mutex_);
    return waiting_.size() < (matters ? most_that_matter : most_waiting);
}

void MomentMaker::add(const sheet::SheetState& sheet, bool matters) {
    Waiting next{seen_cells(sheet), matters};
    {
        const std::lock_guard lock(mutex_);
        waiting_.push_back(std::move(next));
    }
    changed_.notify_all();
}

void MomentMaker::finish() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [&] { return failed_ || (waiting_.empty() && !at_work_); });
    if (failed_) std::rethrow_exception(failed_);
}

void MomentMaker::work() {
    step_back();
    omp_set_num_threads(1);
    for (;;) {
        Waiting next;
        {
            std::unique_lock lock(mutex_);
            changed_.wait(lock, [&] { return ends_ || !waiting_.empty(); });
            if (ends_) return;
            next = std::move(waiting_.front());
            waiting_.pop_front();
            at_work_ = true;
        }
        std::exception_ptr failed;
        try {
            reel_.add(next.sheet, next.matters);
        } catch (...) {
            failed = std::current_exception();
        }
        {
            const std::lock_guard lock(mutex_);
            at_work_ = false;
            if (failed) failed_ = failed;
        }
        changed_.notify_all();
        if (failed) return;
        if (news_) news_();
    }
}

} // namespace tidemark::viewer
