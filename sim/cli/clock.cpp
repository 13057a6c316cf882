#include "plan/clock.h"

#include "cli/commands.h"
#include "grid/problem.h"

namespace tidemark::cli {

double seconds_from_clock(const std::string& text, const std::string& where) {
    const auto seconds = plan::seconds_from_clock(text);
    if (seconds && *seconds > 0)
        return *seconds;
    const std::string what = "\"" + text + "\" is no time", nearest = plan::nearest_clock(text);
    if (!nearest.empty())
        throw grid::BadInput(where, what + "; did you mean " + nearest + "?", "");
    throw grid::BadInput(where, what,
                         "minutes:seconds, such as 7:40 or 90:00, above 0:00 and up to 48 hours, 2880:00");
}

} // namespace tidemark::cli
