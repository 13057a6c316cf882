/// What a room says to a number out of range (grid/within.h).
#pragma once
#include "grid/within.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>
#include <string>

namespace tidemark::scene {

/// The message; empty when the call goes through.
template <class F> std::string said(F&& call) {
    try {
        call();
    } catch (const std::invalid_argument& e) {
        return e.what();
    }
    return {};
}

/// call(value) takes both ends of the range, and refuses what lies below, above, and what is no number, by name and
/// range. Which ends and which name stand in the test, not in the code that is tested.
template <class F> void takes_only(const std::string& name, const grid::Allowed& a, F&& call) {
    INFO(name);
    const double margin = 1e-6 * (a.hi - a.lo), nan = std::nan("");
    for (const double end : {a.lo, a.hi})
        CHECK(said([&] { call(end * a.si); }) == "");
    for (const double wrong : {a.lo - margin, a.hi + margin, nan}) {
        const std::string text = said([&] { call(wrong * a.si); });
        INFO(wrong << " " << a.unit << ": " << text);
        CHECK(text.rfind(name + " is ", 0) == 0);
        CHECK(text.find("; allowed: " + a.text()) != std::string::npos);
    }
}

} // namespace tidemark::scene
