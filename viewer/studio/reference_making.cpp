#include "viewer/studio/reference_making.h"

#include <mutex>
#include <omp.h>
#include <thread>

#include "grid/steady.h"

namespace tidemark::viewer {

struct ReferenceMaking::Work {
    std::mutex mutex;
    bool done = false;
    Values values;
};

namespace {

bool same_reference(const plan::Plan& a, const plan::Plan& b) {
    if (a.reference.has_value() != b.reference.has_value()) return false;
    if (!a.reference) return true;
    const plan::Reference &x = *a.reference, &y = *b.reference;
    return x.groups == y.groups && x.picture.width == y.picture.width && x.picture.height == y.picture.height && x.picture.rgb == y.picture.rgb;
}

} // namespace

ReferenceMaking::Values values_of_reference(const plan::Plan& plan) {
    if (!plan.reference) return nullptr;
    return std::make_shared<const ReferenceValues>(*plan.reference);
}

void ReferenceMaking::of(const std::shared_ptr<const plan::Plan>& plan) {
    if (plan == plan_) return;
    const bool same = plan && plan_ && same_reference(*plan, *plan_);
    plan_ = plan;
    if (same) return;
    values_.reset(), work_.reset();
    if (!plan || !plan->reference) return;
    const auto begun = std::make_shared<Work>();
    std::thread([work = begun, plan, news = news_] {
        Values values;
        try {
            grid::have_threads(omp_get_num_procs());
            values = values_of_reference(*plan);
        } catch (const std::exception&) { // no memory: there is no comparison then, and the plan is none the worse
        }
        {
            const std::lock_guard lock(work->mutex);
            work->values = std::move(values), work->done = true;
        }
        if (news) news();
    }).detach();
    work_ = begun;
}

void ReferenceMaking::are(const std::shared_ptr<const plan::Plan>& plan, Values values) {
    plan_ = plan, values_ = std::move(values), work_.reset();
}

void ReferenceMaking::forget() { plan_.reset(), values_.reset(), work_.reset(); }

ReferenceMaking::Values ReferenceMaking::values() const {
    if (!work_) return values_;
    const std::lock_guard lock(work_->mutex);
    return work_->values;
}

bool ReferenceMaking::busy() const {
    if (!work_) return false;
    const std::lock_guard lock(work_->mutex);
    return !work_->done;
}

} // namespace tidemark::viewer
