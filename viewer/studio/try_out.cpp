#include "viewer/studio/try_out.h"

#include "grid/problem.h"
#include "plan/read_plan.h"
#include "viewer/studio/edit_text_detail.h"

#include <algorithm>
#include <mutex>
#include <thread>

namespace tidemark::viewer {

Tried tried(const Ground& ground, const Addition& addition, const materials::Presets& presets) {
    Tried t{addition, nullptr, -1, {}, std::nullopt};
    try {
        plan::Plan none;
        none.file = ground.file;
        const plan::Plan& before = ground.plan ? *ground.plan : none;
        const std::string text = with_addition(ground.text, before, addition);
        t.plan = std::make_shared<const plan::Plan>(plan::read_plan_text(text, ground.file, presets, ground.plan.get()));
        t.step = ground.plan ? addition.after_step + 1 : 0;
        const std::vector<DriesTo> all = dries_to(*t.plan);
        const auto of = std::find_if(all.begin(), all.end(), [&](const DriesTo& d) { return d.step == t.step; });
        if (of != all.end()) t.dries = *of;
    } catch (const grid::BadInput& bad) {
        const grid::Problem& p = bad.problems().front();
        t.problem = p.what + (p.allowed.empty() ? "" : "; allowed: " + p.allowed);
    } catch (const std::exception& e) {
        t.problem = e.what(); // beyond a formula's range: it can be added, but nothing is foretold
    }
    return t;
}

struct TryOut::Inside {
    materials::Presets presets; ///< its own: it may outlive the window
    std::function<void()> news;
    std::mutex mutex; ///< over what follows
    std::optional<std::pair<Ground, Addition>> next;
    std::shared_ptr<const Tried> newest;
    bool working = false;
};

TryOut::TryOut(const materials::Presets& presets, std::function<void()> news) : in_(std::make_shared<Inside>()) {
    in_->presets = presets, in_->news = std::move(news);
}

void TryOut::work(const std::shared_ptr<Inside>& in) {
    for (;;) {
        std::pair<Ground, Addition> asked;
        {
            const std::lock_guard lock(in->mutex);
            if (!in->next) {
                in->working = false;
                return;
            }
            asked = std::move(*in->next);
            in->next.reset();
        }
        auto found = std::make_shared<const Tried>(tried(asked.first, asked.second, in->presets));
        {
            const std::lock_guard lock(in->mutex);
            in->newest = std::move(found);
        }
        if (in->news) in->news();
    }
}

void TryOut::ask(const Ground& ground, const Addition& addition) {
    const std::lock_guard lock(in_->mutex);
    in_->next.emplace(ground, addition);
    if (in_->working) return;
    in_->working = true;
    std::thread([in = in_] { work(in); }).detach(); // it holds what it needs, and is soon done
}

std::shared_ptr<const Tried> TryOut::newest() const {
    const std::lock_guard lock(in_->mutex);
    return in_->newest;
}

bool TryOut::busy() const {
    const std::lock_guard lock(in_->mutex);
    return in_->working;
}

} // namespace tidemark::viewer
