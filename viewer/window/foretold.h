/// How light each act of a plan dries, worked out on a thread of its own: some tenths of a second, too long for a frame.
#pragma once
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "viewer/studio/strength.h"

namespace tidemark::viewer {

class Foretold {
  public:
    explicit Foretold(std::function<void()> news) : in_(std::make_shared<Inside>()) { in_->news = std::move(news); }
    /// What is known of that act of that plan; nothing: not yet, and it is being worked out.
    std::optional<DriesTo> of(const std::shared_ptr<const plan::Plan>&, int step);

  private:
    struct Inside {
        std::mutex mutex;
        std::shared_ptr<const plan::Plan> plan, wanted; ///< what `all` is of; what is to be worked out next
        std::vector<DriesTo> all;
        bool working = false;
        std::function<void()> news;
    };
    std::shared_ptr<Inside> in_;
    static void work(const std::shared_ptr<Inside>&);
};

} // namespace tidemark::viewer
