/// Middle value; the mean of the two middle ones for an even count; NaN of nothing.
#pragma once
#include <algorithm>
#include <cstddef>
#include <limits>
#include <vector>

namespace tidemark::judge {

template <class T> double median(std::vector<T> v) {
    if (v.empty())
        return std::numeric_limits<double>::quiet_NaN();
    const auto middle = v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2);
    std::nth_element(v.begin(), middle, v.end());
    if (v.size() % 2 == 1)
        return static_cast<double>(*middle);
    return 0.5 * (static_cast<double>(*middle) + static_cast<double>(*std::max_element(v.begin(), middle)));
}

} // namespace tidemark::judge
