#include "materials/range_detail.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::materials {

void Ranges::within(const std::string& column, double value, double lo, double hi) {
    // The value went through SI and back: a limit that was typed exactly must not fail by its last bit.
    const double slack = 1e-12 * std::max(std::fabs(lo), std::fabs(hi));
    require(value >= lo - slack && value <= hi + slack, fmt::format("{} is {:.6g}", column, value),
            fmt::format("{:.6g} to {:.6g}", lo, hi));
}

void Ranges::one_of(const std::string& column, const std::string& value, const std::vector<std::string>& allowed) {
    const bool known = std::find(allowed.begin(), allowed.end(), value) != allowed.end();
    require(known, fmt::format("{} is \"{}\"", column, value), fmt::format("{}", fmt::join(allowed, ", ")));
}

void Ranges::not_empty(const std::string& column, const std::string& value) {
    require(!value.empty(), column + " is empty", "a word");
}

void Ranges::require(bool holds, const std::string& what, const std::string& allowed) {
    if (!holds)
        problems_.push_back({where_, who_ + ": " + what, allowed});
}

} // namespace tidemark::materials
