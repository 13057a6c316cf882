/// What passes the rim of a part of the sheet (sheet/rim.h) with the water, of every pigment and the gum.
///
///   RimCarriage carriage;
///   carriage.begin(sheet, rim, dt_s);       // what the outer cells will give is settled by what they have now
///   carriage.pass(sheet, rim, dt_s);        // in each sub-step of the part, after its film, before its advect()
///   carriage.end(sheet, rim);               // the outer cells take and give what has passed; then advect() of the rest
///
/// Donor cells (first order), in two halves as in transport.h: of w metres of water 0.3125 w run in the lower half and
/// 0.6875 w in the upper; before it gives, a cell lets 0.1875 w rise, and what comes in lets as much sink, so that even
/// stays even. film_before_m of both cells is moved on by the water, so that advect(), for which these faces are closed,
/// finds the depths that go with the masses.
/// Keeps   every mass but for rounding, never negative: an outer cell that has several faces of the rim gives through one
///         after the other.
#pragma once
#include "sheet/rim.h"

#include <vector>

namespace tidemark::pigment {

/// Of the upper half of an outer cell, what may leave through one face of the rim in the whole step.
constexpr double most_through_rim = 0.9;

class RimCarriage {
  public:
    void begin(const sheet::SheetState&, const std::vector<sheet::RimFace>&, double dt_s);
    void pass(sheet::SheetState&, const std::vector<sheet::RimFace>&, double dt_s);
    void end(sheet::SheetState&, const std::vector<sheet::RimFace>&);

  private:
    struct Amount {
        double lower = 0, upper = 0; ///< kg/m²
    };
    std::size_t substances_ = 0;
    double dt_s_ = 0;
    std::vector<Amount> promised_; ///< by face and substance: what the outer cell gives in the whole step
    std::vector<double> passed_;   ///< into the part so far, kg/m²
};

} // namespace tidemark::pigment
