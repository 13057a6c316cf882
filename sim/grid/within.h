/// Refuses a number outside the range that a formula or a scheme is meant for.
///
///   within("cell_m", cell_m, {0.01, 100, "mm", 1e-3})
///   throws std::invalid_argument: cell_m is 0 mm; allowed: 0.01 to 100 mm
///
/// For those who call a room with numbers of their own. What a painter writes is checked by the readers of plans and
/// tables, which know file and line (problem.h); nothing they let pass is refused here. Called where work begins, once a
/// step at most, never cell by cell. A value that is no number, or infinite, is never inside.
#pragma once
#include <string>

namespace tidemark::grid {

struct Allowed {
    double lo = 0, hi = 0;    ///< both are allowed
    const char* unit = "";    ///< that lo, hi and the message are in; empty for a bare number
    double si = 1;            ///< one of that unit, in SI
    std::string text() const; ///< "0.01 to 100 mm"
};

[[noreturn]] void refuse(const char* name, double value, const Allowed&);

/// `value` in SI.
inline void within(const char* name, double value, const Allowed& a) {
    // A limit may have gone through another unit: it must not fail by its last bit.
    constexpr double slack = 1e-12;
    const double lo = a.lo * a.si, hi = a.hi * a.si;
    if (!(value >= lo - slack * (lo < 0 ? -lo : lo) && value <= hi + slack * (hi < 0 ? -hi : hi)))
        refuse(name, value, a);
}

/// How long a step may be, for the processes that are stable at any: twelve days.
inline constexpr Allowed step_of_time{0, 1e6, "s"};

} // namespace tidemark::grid
