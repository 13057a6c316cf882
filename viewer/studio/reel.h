/// The moments of a run, kept packed in memory under a cap, so that any minute can be looked at at once.
///
/// What has not changed since the moment before is kept once. When the cap is reached every second moment goes, those at
/// which an act begins or ends last: the reel stays as long as the run, and gets coarser. Never blocks for long: one
/// thread adds while another looks.
#pragma once
#include "sheet/sheet_state.h"
#include "viewer/studio/moment.h"

#include <memory>
#include <optional>
#include <vector>

namespace tidemark::viewer {

constexpr std::size_t usual_reel_bytes = 256u << 20;

/// When a cell came into a stage; of the kept moments, so as coarse in time as they are.
struct StageChange {
    double time_s = 0;
    int stage = 0; ///< sheet::CellStage
};

class Reel {
  public:
    explicit Reel(std::size_t most_bytes = usual_reel_bytes);
    ~Reel();
    Reel(const Reel&) = delete;
    Reel& operator=(const Reel&) = delete;

    /// Of what seen_cells() gave (snapshot_detail.h). Rising times. `matters`: an act begins or ends here.
    void add(const sheet::SheetState&, bool matters);
    /// The moments of another reel up to that time, as the beginning of this one.
    void begin_as(const Reel&, double until_s);

    std::vector<double> times_s() const;
    std::size_t count() const;
    double last_s() const; ///< -1: there is none yet
    /// The last moment at or before that time, else the first; nothing while there is none.
    std::optional<Moment> at(double time_s, unsigned parts) const;
    /// From `time_s` on, what the cell will be next; nothing when it stays what it is as far as is known.
    std::optional<StageChange> next_stage(int i, int j, double time_s) const;
    std::size_t bytes() const;

  private:
    struct Inside;
    std::unique_ptr<Inside> in_;
};

} // namespace tidemark::viewer
