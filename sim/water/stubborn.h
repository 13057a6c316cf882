/// Where a solve makes no headway, and the small parts of the sheet around it.
///
/// Over relief a few cells hold nearly all of what is left of a residual: puddles that hang together with the rest
/// through one thin face, which the coarse levels take for well mixed. A cycle lessens the rest of the sheet's residual
/// well and theirs badly. They are few, so sweeps over them alone cost little: on a quarter sheet under a level wash
/// they save a third of the cycles (7512 to 5055 in half an hour of painting, bench/rehearsal).
///
///   start       of a solve: nothing is known to be stubborn
///   row_worst   takes the largest |r1| of every patch of a row while the residual is taken
///   find        patches above a residual that the last cycle has lessened less than four times, each with a patch's
///               width around it, joined where they touch. Only those: sweeps over a part whose residual comes from
///               far away would leave a kink around it.
#pragma once
#include "grid/tiles.h"

#include <cstdint>
#include <vector>

namespace tidemark::water {

class Stubborn {
  public:
    static constexpr int patch = 8; ///< cells along a side
    struct RowSpan {
        int j, begin, end; ///< columns [begin, end) of row j
    };
    using Part = std::vector<RowSpan>; ///< by rows; parts don't touch each other

    Stubborn() = default;
    Stubborn(int nx, int ny);
    float* row_worst(int patch_row) { return worst_.data() + static_cast<std::size_t>(patch_row) * px_; }
    void start();
    /// Empty when so much of the sheet is above it that whole sweeps do better.
    const std::vector<Part>& find(float above); ///< m, as the residuals

  private:
    int px_ = 0, py_ = 0;
    std::vector<float> worst_, before_; ///< of this cycle and the one before
    std::vector<std::int32_t> part_; ///< of each patch: -1 none, else its part
    std::vector<int> open_;
    std::vector<Part> parts_;
    int mark(float above);
    void join(int from, int part);
};

} // namespace tidemark::water
