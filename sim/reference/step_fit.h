/// A step with a soft edge, laid through a row of values that has a texture besides.
///
///   value(k) = before + (after - before) Φ((k - at) / s)      Φ: the normal distribution
///
/// Place, softness s and both levels are those of least squares, so that every value counts and none alone: with the
/// lightest and the darkest value for levels, a hard edge between two textures reads as wide as the row is long. s is
/// tried on a ladder of widths, at places a quarter of s apart or nearer, and then taken at the least of a parabola
/// through the best rung and its neighbours. The width is that from 10 to 90 percent, 2.563 s, and lies within the row:
/// of a wider edge a row does not show enough.
#pragma once
#include <optional>
#include <span>
#include <vector>

namespace tidemark::reference {

struct FittedStep {
    double at = 0;        ///< of its middle, in values from the first
    double width = 0;     ///< 10-90 %, in values
    double change = 0;    ///< after - before
    double explained = 0; ///< 0 ... 1 of the row's variance
    double residual = 0;  ///< sum of squares that is left
};

/// The row as three even stretches, of least squares: where the second and the third begin, and what is left.
struct ThreeLevels {
    int second = 0, third = 0;
    double residual = 0;
};
ThreeLevels three_levels(std::span<const double> row); ///< of three values or more

class StepFit {
  public:
    /// For widths from `narrowest` on (above 0), in values, and rows of up to `longest` of them.
    StepFit(double narrowest, int longest);

    /// The best step that falls (change below 0) along the row; none where it rises all along, or the row is too short.
    std::optional<FittedStep> falling(std::span<const double> row) const;

  private:
    struct Rung {
        double s = 0;
        int reach = 0, stride = 1; ///< in half values: beyond the reach Φ is 0 or 1
        std::vector<double> phi;   ///< from -reach to reach
    };
    std::vector<Rung> rungs_;
};

} // namespace tidemark::reference
