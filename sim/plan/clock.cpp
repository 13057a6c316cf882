#include "plan/clock.h"

#include "grid/csv.h"

#include <vector>

namespace tidemark::plan {

namespace {

constexpr int most_digits = 4;

/// The whole numbers between colons (or the marks given instead); nothing when there is anything else.
std::optional<std::vector<int>> numbers_of(const std::string& text, const std::string& marks) {
    std::vector<int> numbers{0};
    int digits = 0;
    for (const char c : text) {
        if (c >= '0' && c <= '9' && ++digits <= most_digits) {
            numbers.back() = 10 * numbers.back() + (c - '0');
        } else if (marks.find(c) != std::string::npos && digits > 0) {
            numbers.push_back(0);
            digits = 0;
        } else {
            return {};
        }
    }
    return digits > 0 ? std::optional(numbers) : std::nullopt;
}

} // namespace

std::optional<double> seconds_from_clock(const std::string& text) {
    const auto numbers = numbers_of(text, ":");
    if (!numbers || numbers->size() != 2 || text.size() != text.find(':') + 3)
        return {};
    const double seconds = 60.0 * (*numbers)[0] + (*numbers)[1];
    return (*numbers)[1] < 60 && seconds <= longest_clock_s ? std::optional(seconds) : std::nullopt;
}

std::string nearest_clock(const std::string& text) {
    const auto numbers = numbers_of(text, ":.,");
    const std::size_t point = text.find_first_of(".,");
    const bool tenths = point != std::string::npos && point + 2 == text.size(); // 7.5: half a minute, or five seconds?
    if (seconds_from_clock(text) || !numbers || numbers->size() > 3 || tenths)
        return {};
    double seconds = 60.0 * numbers->front();
    if (numbers->size() > 1)
        seconds += (*numbers)[1];
    if (numbers->size() > 2)
        seconds = 60 * seconds + (*numbers)[2];
    return seconds > 0 && seconds <= longest_clock_s ? grid::clock_text(seconds) : "";
}

} // namespace tidemark::plan
