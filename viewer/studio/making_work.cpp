// The thread that squints: one piece of work after the other, history changed by it alone.
#include "grid/steady.h"
#include "viewer/studio/making_detail.h"
#include "viewer/studio/moment_maker_detail.h"

#include <omp.h>

namespace tidemark::viewer {

using reference::PictureMasses;

void Making::Inside::loop() {
    step_back();
    grid::have_threads(omp_get_num_procs());
    for (;;) {
        std::function<void()> next;
        {
            std::unique_lock lock(mutex);
            at_work = false;
            changed.wait(lock, [&] { return ends || !work.empty(); });
            if (ends) return;
            next = std::move(work.front());
            work.pop_front();
            at_work = true;
        }
        next();
        if (news) news();
    }
}

void Making::Inside::enqueue(std::function<void()> f) {
    {
        const std::lock_guard lock(mutex);
        work.push_back(std::move(f));
    }
    changed.notify_all();
}

reference::Looking Making::Inside::looking(const Choices& c) const {
    reference::Looking how;
    how.sheet = sheet, how.groups = c.groups, how.squint.simplify_mm = c.simplify_mm;
    return how;
}

/// Squinting anew only when that has changed by which it is done.
std::shared_ptr<const PictureMasses> Making::Inside::look(const Choices& c) {
    if (!squinted || squinted_by.groups != c.groups || squinted_by.simplify_mm != c.simplify_mm) {
        squinted = std::make_shared<const PictureMasses>(reference::masses_in(picture, looking(c)));
        squinted_by = c;
    }
    auto out = std::make_shared<PictureMasses>(*squinted);
    if (c.painted) out->groups = *c.painted;
    const reference::Masses masses = c.painted ? find_masses(*c.painted, out->map) : out->masses;
    reference::EditedMasses edits = edited(masses, out->map, out->groups.count, out->pixels_per_mm, c.edits);
    out->masses = std::move(edits.masses), out->names = std::move(edits.names), out->renumbered = std::move(edits.renumbered);
    out->groups = groups_of(out->masses, out->map, out->groups);
    return out;
}

void Making::Inside::change(const Change& make) {
    enqueue([this, make] {
        trying([&] {
            Choices c = history[at]; // only this thread writes them
            if (found) make(c, *found);
            auto next = look(c);
            const std::lock_guard lock(mutex);
            if (found) {
                history.resize(at + 1);
                history.push_back(std::move(c));
                ++at;
            }
            found = std::move(next);
        });
    });
}

void Making::Inside::go_to(std::ptrdiff_t by) {
    enqueue([this, by] {
        trying([&] {
            const auto to = static_cast<std::ptrdiff_t>(at) + by;
            if (to < 0 || to >= static_cast<std::ptrdiff_t>(history.size())) return;
            auto next = look(history[static_cast<std::size_t>(to)]);
            const std::lock_guard lock(mutex);
            at = static_cast<std::size_t>(to);
            found = std::move(next);
        });
    });
}

} // namespace tidemark::viewer
