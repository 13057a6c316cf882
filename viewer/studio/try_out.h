/// What an act would do to a plan, before it is added: whether the plan's reader takes it, and how light it would dry
/// beside what the reference has there. Some tenths of a second, so on a thread of its own.
#pragma once
#include "materials/presets.h"
#include "plan/plan.h"
#include "viewer/studio/new_act.h"
#include "viewer/studio/strength.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace tidemark::viewer {

/// The plan that something is added to. No `plan`: its text has no act yet.
struct Ground {
    std::string text;
    std::filesystem::path file; ///< masks are looked for beside it
    std::shared_ptr<const plan::Plan> plan;
};

struct Tried {
    Addition addition;
    std::shared_ptr<const plan::Plan> plan; ///< with the act; none: it can't be added
    int step = -1;                          ///< the act in it
    std::string problem;                    ///< why not: what is wrong, what is allowed
    std::optional<DriesTo> dries;           ///< none: it lays no pigment
};
Tried tried(const Ground&, const Addition&, const materials::Presets&);

class TryOut {
  public:
    TryOut(const materials::Presets&, std::function<void()> news);
    void ask(const Ground&, const Addition&); ///< of several the newest is tried
    std::shared_ptr<const Tried> newest() const; ///< none: nothing has been tried yet
    bool busy() const;

  private:
    struct Inside;
    std::shared_ptr<Inside> in_;
    static void work(const std::shared_ptr<Inside>&);
};

} // namespace tidemark::viewer
