/// Whole states of a run, from which runs of changed plans go on. Private to the working half.
///
/// A state serves a changed plan when all that has been done until then would have been the same: sheet, paper, room,
/// pigments and areas are the same, no act that differs has begun, and none of the starts that differ mattered yet
/// (rehearsal/fork.cpp; once a start matters it does so until its act begins, so the state itself tells).
#pragma once
#include "rehearsal/rehearsal.h"
#include "viewer/studio/run.h"

#include <mutex>
#include <optional>

namespace tidemark::viewer {

class Checkpoints {
  public:
    explicit Checkpoints(std::size_t most_bytes) : most_bytes_(most_bytes) {}
    void add(rehearsal::Rehearsal&); ///< unchanged when it returns
    /// Those of another run at or before that time: they are of this one too.
    void begin_as(const Checkpoints&, double until_s);
    /// The latest from which that plan can go on; none: from the start.
    std::optional<rehearsal::Rehearsal> serve(const plan::Plan&, double cell_m) const;
    std::size_t count() const;

  private:
    using State = std::shared_ptr<const rehearsal::Rehearsal>;
    std::size_t most_bytes_;
    mutable std::mutex mutex_;
    std::vector<State> states_; ///< by time; their plans are without masks
    std::vector<grid::GreyPicture> masks_; ///< of all their plans
};

/// Bytes of a state, nearly: its fields.
std::size_t bytes_of(const rehearsal::Rehearsal&);

} // namespace tidemark::viewer
