/// A brush that holds and releases what a test asks for.
#pragma once
#include "materials/brush.h"

#include <string>

namespace tidemark::tests {

inline materials::Brush brush(const std::string& id, double hold_m3, double release_m3) {
    materials::Brush b;
    b.id = id, b.hold_m3 = hold_m3, b.release_m3 = release_m3;
    return b;
}

} // namespace tidemark::tests
