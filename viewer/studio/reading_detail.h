/// What is read from disk on a thread of its own: a plan, or the same plan again. Private to the working half.
#pragma once
#include "viewer/studio/document.h"
#include "viewer/studio/reference_making.h"

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

namespace tidemark::viewer {

struct WhatWasRead {
    std::optional<Document> document;     ///< of a plan that is opened
    std::optional<Document::Fresh> again; ///< of one that lies on the table
    ReferenceMaking::Values reference;    ///< of its plan
    std::string failed;                   ///< nothing was read; empty: it was
};

class Reading {
  public:
    /// Begins. Destroying it doesn't wait, and drops what is read.
    Reading(std::function<void(WhatWasRead&)> read, std::function<void()> news);
    std::optional<WhatWasRead> take(); ///< once, when it is over

  private:
    struct Inside {
        std::mutex mutex;
        bool done = false;
        WhatWasRead what;
    };
    std::shared_ptr<Inside> in_ = std::make_shared<Inside>();
};

} // namespace tidemark::viewer
