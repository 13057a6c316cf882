/// Lets a multigrid that overshoots converge all the same.
///
/// Where a deep bead stands against thin film (the lower edge of a tilted sheet) a coarse cell holds both, and its
/// correction is half as large again as it should be, with the wrong sign after the next cycle: a plain solve grows.
/// Each cycle is then taken as a direction only, and of all sums of the last few directions the one that leaves the
/// smallest residual is kept: generalised conjugate residuals, Eisenstat, Elman & Schultz, SIAM J. Numer. Anal. 20
/// (1983), truncated. The sum of squares of the residual can't grow. A system on which 30 cycles and many halvings of
/// the step failed takes 7 to 15.
///
///   start    with what the plain cycles have reached; the level's r1 becomes what the next cycle is to answer
///   take     de of the level, a cycle's answer, as the next direction; r1 becomes what is left, or where the direction
///            brought next to nothing its image (Orthodir, Young & Jea 1980, Linear Algebra Appl. 34), for an answer
///            to the same residual would be the same. Returns the largest residual (NaN if there is one), by recurrence:
///            the solution in floats leaves a few times the rounding of c A de more; -1 if nothing new came
///   finish   de and dp of the level become the solution
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
    /// Directions kept. A drop of 6 mm on dry paper at 0.5 mm needs all of thirty cycles: with 8 four solves in five
    /// stood still. On large sheets they would fill the memory.
    static constexpr int most = 28, most_of_many = 8;
    static constexpr long many_cells = 2'000'000;
    void start(Level&);
    double take(Level&);
    void finish(Level&);

  private:
    struct Direction {
        PartedField de, image; ///< image: what the system makes of de
        double norm2 = 0;
    };
    PartedField solution_, left_; ///< left_: the residual
    std::vector<Direction> kept_;
    int taken_ = 0;
    std::array<double, most> shares_of(Level&, Direction& made, int others);
    Direction& next(const Level&);
    void ask(Level&, PartedField&);
};

} // namespace tidemark::water
