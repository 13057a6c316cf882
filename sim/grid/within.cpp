#include "grid/within.h"

#include <fmt/format.h>
#include <stdexcept>

namespace tidemark::grid {

namespace {

std::string with_unit(const std::string& number, const char* unit) {
    return *unit == 0 ? number : fmt::format("{} {}", number, unit);
}

} // namespace

std::string Allowed::text() const { return with_unit(fmt::format("{:.6g} to {:.6g}", lo, hi), unit); }

void refuse(const char* name, double value, const Allowed& allowed) {
    const std::string said = with_unit(fmt::format("{:.6g}", value / allowed.si), allowed.unit);
    throw std::invalid_argument(fmt::format("{} is {}; allowed: {}", name, said, allowed.text()));
}

} // namespace tidemark::grid
