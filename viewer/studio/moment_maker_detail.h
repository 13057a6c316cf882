/// Makes the moments of a run on a thread of its own, while the run goes on. Private to the working half.
///
/// A sheet takes longer to look at than a step to play: when the maker is behind, moments between the acts are left out.
#pragma once
#include "viewer/studio/reel.h"

#include <atomic>
#include <condition_variable>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>

namespace tidemark::viewer {

class MomentMaker {
  public:
    MomentMaker(Reel&, std::function<void()> news);
    ~MomentMaker(); ///< what waits is dropped
    bool has_room(bool matters) const;
    void add(const sheet::SheetState&, bool matters); ///< copies what is to be seen
    void finish(); ///< returns when all are made. Errors: what went wrong in making them

  private:
    struct Waiting {
        sheet::SheetState sheet;
        bool matters = false;
    };
    Reel& reel_;
    std::function<void()> news_;
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Waiting> waiting_;
    bool ends_ = false, at_work_ = false;
    std::exception_ptr failed_;
    std::thread thread_;
    void work();
};

/// This thread, and those that it starts, come after the window's.
void step_back();

} // namespace tidemark::viewer
