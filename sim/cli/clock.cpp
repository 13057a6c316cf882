#include <cctype>
#include <vector>

#include "cli/commands.h"
#include "grid/problem.h"

namespace tidemark::cli {

double seconds_from_clock(const std::string& text, const std::string& where) {
    const grid::BadInput bad(where, "\"" + text + "\" is no time", "minutes and seconds, such as 7:40, up to 24:00:00");
    std::vector<long> parts{0};
    int digits = 0;
    for (char c : text) {
        if (std::isdigit(static_cast<unsigned char>(c)) && ++digits <= 4) {
            parts.back() = 10 * parts.back() + (c - '0');
        } else if (c == ':' && digits > 0 && parts.size() < 3) {
            parts.push_back(0), digits = 0;
        } else {
            throw bad;
        }
    }
    if (digits == 0 || parts.size() < 2) throw bad;
    for (std::size_t k = 1; k < parts.size(); ++k)
        if (parts[k] > 59) throw bad;
    long seconds = 0;
    for (long p : parts) seconds = 60 * seconds + p;
    if (seconds <= 0 || seconds > 24 * 3600) throw bad;
    return static_cast<double>(seconds);
}

} // namespace tidemark::cli
