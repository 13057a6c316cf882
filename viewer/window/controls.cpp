#include "viewer/window/controls.h"

#include <algorithm>

namespace tidemark::viewer {

std::optional<Controls::One> Controls::find(const std::string& name) const {
    std::optional<One> found;
    int several = 0;
    for (const One& one : all_) {
        if (one.name == name)
            return one;
        if (one.name.starts_with(name)) {
            found = one;
            ++several;
        }
    }
    return several == 1 ? found : std::nullopt;
}

std::string Controls::next(const std::string& from, bool back) const {
    std::vector<std::string> ring;
    for (const One& one : all_)
        if (one.in_ring && std::find(ring.begin(), ring.end(), one.name) == ring.end())
            ring.push_back(one.name);
    if (ring.empty())
        return {};
    const auto at = std::find(ring.begin(), ring.end(), from);
    if (at == ring.end())
        return back ? ring.back() : ring.front();
    const auto n = ring.size(), k = static_cast<std::size_t>(at - ring.begin());
    return ring[(k + (back ? n - 1 : 1)) % n];
}

} // namespace tidemark::viewer
