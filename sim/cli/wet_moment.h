/// The sheet as it looks wet, for the report: how much darker paint stands there than it dries is best seen while much of
/// it is under water.
#pragma once
#include <optional>

#include "rehearsal/rehearsal.h"
#include "report/page.h"

namespace tidemark::cli {

/// Looks at the end of washes. The last at which a quarter of the sheet has film is kept; if there is none, that with the
/// most film.
class WetMoment {
  public:
    void look(const rehearsal::Rehearsal&); ///< after every step
    /// At the end: of a run that was stopped before all was dry, the sheet as it looks then.
    std::optional<report::WetSheet> shown(const rehearsal::Rehearsal&) const;

  private:
    static constexpr double much = 0.25; ///< of the sheet
    std::size_t washes_ = 0;             ///< that have ended
    std::optional<report::WetSheet> best_;
};

} // namespace tidemark::cli
