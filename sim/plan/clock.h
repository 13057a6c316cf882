/// Times as painters write them, in plans and on the command line: "minutes:seconds", "7:40", up to 48 hours.
#pragma once
#include <optional>
#include <string>

namespace tidemark::plan {

constexpr double longest_clock_s = 48 * 3600;

std::optional<double> seconds_from_clock(const std::string& text);

/// What was probably meant by a text that is no time: "1:15" for "0:75", "90:00" for "1:30:00", "7:40" for "7.40",
/// "5:00" for "5". Empty when nothing is near, or the text is a time.
std::string nearest_clock(const std::string& text);

} // namespace tidemark::plan
