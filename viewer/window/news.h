/// Word from the background that there is something new to show: one event in SDL's queue, however often it is said.
#pragma once
#include <SDL.h>

#include <functional>
#include <memory>
#include <mutex>

namespace tidemark::viewer {

class News {
  public:
    News() : kind_(SDL_RegisterEvents(1)) {}
    ~News() {
        const std::lock_guard lock(in_->mutex);
        in_->listening = false; // threads of the background may outlive the window
    }
    News(const News&) = delete;
    News& operator=(const News&) = delete;
    /// From any thread, at any time, also when this is gone.
    std::function<void()> teller() const {
        return [in = in_, kind = kind_] {
            const std::lock_guard lock(in->mutex);
            if (!in->listening || in->waits)
                return;
            SDL_Event e{};
            e.type = kind;
            in->waits = SDL_PushEvent(&e) == 1;
        };
    }
    bool is(const SDL_Event& e) const { return e.type == kind_; }
    void heard() {
        const std::lock_guard lock(in_->mutex);
        in_->waits = false;
    }

  private:
    struct Inside {
        std::mutex mutex;
        bool listening = true, waits = false;
    };
    std::shared_ptr<Inside> in_ = std::make_shared<Inside>();
    Uint32 kind_;
};

} // namespace tidemark::viewer
