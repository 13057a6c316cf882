#include "viewer/studio/reading_detail.h"

#include <omp.h>
#include <thread>

#include "grid/steady.h"

namespace tidemark::viewer {

Reading::Reading(std::function<void(WhatWasRead&)> read, std::function<void()> news) {
    std::thread([in = in_, read = std::move(read), news = std::move(news)] {
        WhatWasRead what;
        try {
            grid::have_threads(omp_get_num_procs());
            read(what);
        } catch (const std::exception& e) {
            what = {};
            what.failed = e.what();
        }
        {
            const std::lock_guard lock(in->mutex);
            in->what = std::move(what), in->done = true;
        }
        if (news) news();
    }).detach();
}

std::optional<WhatWasRead> Reading::take() {
    const std::lock_guard lock(in_->mutex);
    if (!in_->done) return std::nullopt;
    in_->done = false;
    return std::move(in_->what);
}

} // namespace tidemark::viewer
