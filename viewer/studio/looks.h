/// Ways to look at a moment, as pixels for a picture of one pixel a cell.
///
///   now         as it looks now, wet as it is
///   dried       as it will dry
///   values      greys of the dried sheet's L*
///   groups      these in the few values of the reference (or of the sheet itself, without one)
///   water       depth of film over the paper's moisture, pale to deep; no hue is needed to read it
///   difference  the dried sheet less the reference: mid grey where they agree, darker where the sheet is darker, lighter
///               where it is lighter, black and white at 40 L*
#pragma once
#include "plan/plan.h"
#include "reference/groups.h"
#include "viewer/studio/moment.h"

#include <array>

namespace tidemark::viewer {

enum class LookKind { now, dried, values, groups, water, difference };
inline constexpr std::array all_looks{LookKind::now, LookKind::dried, LookKind::values, LookKind::groups, LookKind::water, LookKind::difference};
const char* look_name(LookKind);   ///< "as it looks now" ...
unsigned parts_for(LookKind);      ///< of a moment

/// RGBA, row by row, 4 bytes a pixel.
struct Pixels {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgba;
};

/// The reference as a value map, made once for a plan. For one thread.
class ReferenceValues {
  public:
    explicit ReferenceValues(const plan::Reference&);
    const reference::Groups& groups() const { return groups_; } ///< at its own size
    const reference::ValueMap& map(int width, int height) const; ///< the last size asked for is remembered

  private:
    reference::ValueMap own_;
    reference::Groups groups_;
    mutable reference::ValueMap sized_;
};

struct LookAt {
    const ReferenceValues* reference = nullptr; ///< none: groups by the usual cuts, no difference
};
/// Errors: InternalError when the moment lacks the parts, or there is no reference for a difference.
Pixels pixels_of(const Moment&, LookKind, const LookAt&);
/// One sheet less another, before the same change, as `difference` has it; the other may have other cells.
Pixels pixels_of_change(const Moment& after, const Moment& before);
/// The sRGB grey of that lightness.
std::uint8_t grey_of(double lstar);
/// The reference itself in the same look: its colours for now and dried and water, greys, groups; as large as the moment.
Pixels reference_pixels(const plan::Plan&, const ReferenceValues&, LookKind, int width, int height);

} // namespace tidemark::viewer
