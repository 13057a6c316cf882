#include "viewer/window/foretold.h"

#include <thread>

namespace tidemark::viewer {

void Foretold::work(const std::shared_ptr<Inside>& in) {
    for (;;) {
        std::shared_ptr<const plan::Plan> plan;
        {
            const std::lock_guard lock(in->mutex);
            if (in->wanted == in->plan) {
                in->working = false;
                return;
            }
            plan = in->wanted;
        }
        std::vector<DriesTo> all;
        try {
            all = dries_to(*plan);
        } catch (const std::exception&) {
            // Out of a formula's range: nothing is foretold of this plan.
        }
        {
            const std::lock_guard lock(in->mutex);
            in->plan = plan;
            in->all = std::move(all);
        }
        in->news();
    }
}

std::optional<DriesTo> Foretold::of(const std::shared_ptr<const plan::Plan>& plan, int step) {
    const std::lock_guard lock(in_->mutex);
    if (in_->plan == plan) {
        for (const DriesTo& d : in_->all)
            if (d.step == step)
                return d;
        return std::nullopt;
    }
    in_->wanted = plan;
    if (!in_->working) {
        in_->working = true;
        // Let go: it holds what it needs, and the last plan is soon done with.
        std::thread([in = in_] { work(in); }).detach();
    }
    return std::nullopt;
}

} // namespace tidemark::viewer
