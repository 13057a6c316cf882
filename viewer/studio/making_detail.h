/// What a Making holds: choices and their history, and the thread that squints and writes. Private to the working half.
#pragma once
#include "grid/problem.h"
#include "viewer/studio/making.h"

#include <atomic>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>

namespace tidemark::viewer {

/// All that a painter has chosen; what is found follows from it.
struct Choices {
    int groups = 3;
    double simplify_mm = 1.5;
    std::shared_ptr<const reference::Groups> painted; ///< groups as brushed; none: as squinted
    std::vector<reference::Edit> edits;
};
using Change = std::function<void(Choices&, const reference::PictureMasses&)>;

struct Making::Inside {
    std::filesystem::path picture_file;
    std::function<void()> news;
    grid::Picture picture;
    reference::SheetSize sheet;
    std::atomic<bool> ends{false};
    std::thread thread;

    mutable std::mutex mutex; ///< over what follows
    std::condition_variable changed;
    std::deque<std::function<void()>> work;
    bool at_work = true;
    std::shared_ptr<const reference::PictureMasses> found;
    std::vector<Choices> history{Choices{}};
    std::size_t at = 0;
    std::string problem;
    double writing = -1;
    std::filesystem::path written;
    std::shared_ptr<OwnPlan> own; ///< none: not begun

    // Of the working thread alone: what was squinted last, to begin edits from.
    std::shared_ptr<const reference::PictureMasses> squinted;
    Choices squinted_by;

    void loop();
    void enqueue(std::function<void()>);
    reference::Looking looking(const Choices&) const;
    std::shared_ptr<const reference::PictureMasses> look(const Choices&);
    void change(const Change&);
    void go_to(std::ptrdiff_t by);
    void write(const std::filesystem::path& folder);
    void begin_acts(const materials::Presets&);
    void write_acts(const std::filesystem::path& folder);
    template <class F> void trying(F&&);
};

/// What went wrong is told of; all stays as it was.
template <class F> void Making::Inside::trying(F&& f) {
    std::string wrong;
    try {
        f();
    } catch (const grid::BadInput& bad) {
        wrong = bad.problems().front().line();
    } catch (const std::exception& e) {
        wrong = e.what();
    }
    const std::lock_guard lock(mutex);
    problem = wrong;
    writing = -1;
}

} // namespace tidemark::viewer
