/// The values of a plan's reference, worked out on a thread of its own: of a picture of a million pixels they take longer
/// than two frames of the window.
///
///   making.of(plan);       // each frame: begins when this plan's reference is another than the last one's
///   making.values()        // none: the plan has no reference, or they are not ready yet
///
/// For one thread, but for the work itself. Destroying it doesn't wait.
#pragma once
#include "viewer/studio/looks.h"

#include <functional>
#include <memory>

namespace tidemark::viewer {

class ReferenceMaking {
  public:
    using Values = std::shared_ptr<const ReferenceValues>;

    explicit ReferenceMaking(std::function<void()> news = {}) : news_(std::move(news)) {}
    void of(const std::shared_ptr<const plan::Plan>&); ///< returns at once
    void are(const std::shared_ptr<const plan::Plan>&, Values); ///< worked out elsewhere already
    void forget();
    Values values() const;
    bool busy() const; ///< they are being worked out

  private:
    struct Work;
    std::function<void()> news_;
    std::shared_ptr<const plan::Plan> plan_; ///< whose reference it is
    Values values_;
    std::shared_ptr<Work> work_;             ///< none: nothing is asked for
};

/// Nothing without a reference.
ReferenceMaking::Values values_of_reference(const plan::Plan&);

} // namespace tidemark::viewer
