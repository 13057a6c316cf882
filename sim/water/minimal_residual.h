/// Lets a multigrid that overshoots converge all the same.
///
/// Where a deep bead stands against thin film (the lower edge of a tilted sheet) a coarse cell holds both, and its
/// correction is half as large again as it should be, with the wrong sign after the next cycle: a plain solve grows.
/// Each cycle is then taken as a direction only, and of all sums of the last few directions the one that leaves the
/// smallest residual is kept: generalised conjugate residuals, Eisenstat, Elman & Schultz, SIAM J. Numer. Anal. 20
/// (1983), truncated. The sum of squares of the residual can't grow. A system on which 30 cycles and many halvings of the
/// step failed takes 7 to 15.
///
///   start    with what the plain cycles have reached; the level's r1 becomes the residual of it
///   take     de of the level, a cycle's answer to r1, as the next direction; r1 becomes the new residual, its largest
///            magnitude is returned (NaN if there is one)
///   finish   de and dp of the level become the solution; r1 is what is left of it
///
/// Sums are by rows in a fixed order: the same bytes for any number of threads.
#pragma once
#include "water/parted.h"

#include <array>
#include <vector>

namespace tidemark::water {

struct Level;

class MinimalResidual {
  public:
    static constexpr int most = 8; ///< directions kept; with 4 some beads took three times as many cycles
    void start(Level&);
    double take(Level&);
    void finish(Level&);

  private:
    struct Direction {
        PartedField de, image; ///< image: what the system makes of de
        double norm2 = 0;
    };
    PartedField solution_;
    std::vector<Direction> kept_;
    int taken_ = 0;
    std::array<double, most> shares_of(Level&, Direction& made, int others);
    Direction& next(const Level&);
};

} // namespace tidemark::water
