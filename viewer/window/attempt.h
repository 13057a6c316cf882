/// A change that may be refused: what is wrong with it is told in the window, nothing is lost.
#pragma once
#include <exception>

#include "grid/problem.h"

namespace tidemark::viewer {

/// `teller`.say(sentence, true) when `change` throws. False then. Of the plan that lies before a teller with an own_file()
/// the sentence names no file: its painter knows which.
template <class Teller, class F> bool attempt(Teller& teller, F&& change) {
    try {
        change();
        return true;
    } catch (const grid::BadInput& e) {
        grid::Problem first = e.problems().front();
        if constexpr (requires { teller.own_file(); })
            if (first.where == teller.own_file())
                first.where.clear();
        teller.say(first.where.empty() ? first.what + (first.allowed.empty() ? "" : "; allowed: " + first.allowed) : first.line(), true);
    } catch (const std::exception& e) {
        teller.say(e.what(), true);
    }
    return false;
}

} // namespace tidemark::viewer
