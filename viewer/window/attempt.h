/// A change that may be refused: what is wrong with it is told in the window, nothing is lost.
#pragma once
#include <exception>

#include "grid/problem.h"

namespace tidemark::viewer {

/// `teller`.say(sentence, true) when `change` throws. False then.
template <class Teller, class F> bool attempt(Teller& teller, F&& change) {
    try {
        change();
        return true;
    } catch (const grid::BadInput& e) {
        grid::Problem first = e.problems().front();
        if (first.where.ends_with(".toml")) // the plan on the table, and no line of it: its painter knows which
            first.where.clear();
        teller.say(first.where.empty() ? first.what + (first.allowed.empty() ? "" : "; allowed: " + first.allowed) : first.line(), true);
    } catch (const std::exception& e) {
        teller.say(e.what(), true);
    }
    return false;
}

} // namespace tidemark::viewer
