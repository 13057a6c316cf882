/// A check of a published value: it fails like any CHECK, and leaves a line that ctest prints and the README shows.
///
///     published::Check{"density of water, 20 °C", "Kell 1975", "kg/m³"}.near(998.20, got, 0.01);
///     0.01);
///
/// Calls with the same `what` and `source` in one test are the cases of one table: its line shows the worst of them.
/// Everything is in `unit`, given in the reader's own units (mm, °C). The lines of a test are one file below
/// TIDEMARK_BUILD_DIR/published, written when the test ends and removed when it begins again.
#pragma once
#include <string>

namespace published {

/// Where a check stands. Not std::source_location: clang 14 does not have it.
struct Where {
    const char* file;
    unsigned line;
    static Where here(const char* file = __builtin_FILE(), unsigned line = __builtin_LINE()) { return {file, line}; }
};

struct Check {
    std::string what, source, unit = {}; ///< none may hold ; | [ ] or a control character

    void near(double expected, double got, double tolerance, Where = Where::here()) const;
    /// `share` of the expected value: 0.02 is 2 %.
    void relative(double expected, double got, double share, Where = Where::here()) const;
    void at_least(double bound, double got, Where = Where::here()) const;
    void at_most(double bound, double got, Where = Where::here()) const;
    void between(double low, double high, double got, Where = Where::here()) const;
};

} // namespace published
