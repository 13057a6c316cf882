#include "grid/problem.h"

#include <algorithm>
#include <cctype>
#include <utility>

namespace tidemark::grid {

namespace {

std::string joined(const std::vector<Problem>& problems) {
    std::string text;
    for (const Problem& p : problems) {
        if (!text.empty()) text += '\n';
        text += p.line();
    }
    return text;
}

/// Letters to add, drop, change or swap with their neighbour, upper and lower case alike
/// (Damerau 1964, restricted form).
std::size_t edit_distance(const std::string& a, const std::string& b) {
    const auto same = [](char x, char y) {
        return std::tolower(static_cast<unsigned char>(x)) == std::tolower(static_cast<unsigned char>(y));
    };
    std::vector<std::size_t> older(b.size() + 1), above(b.size() + 1), here(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) here[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::swap(older, above);
        std::swap(above, here);
        here[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            here[j] = std::min({above[j] + 1, here[j - 1] + 1, above[j - 1] + !same(a[i - 1], b[j - 1])});
            const bool swapped = i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1]);
            if (swapped) here[j] = std::min(here[j], older[j - 2] + 1);
        }
    }
    return here[b.size()];
}

} // namespace

std::string Problem::line() const {
    std::string text = where + ": " + what;
    if (!allowed.empty()) text += "; allowed: " + allowed;
    return text;
}

BadInput::BadInput(std::vector<Problem> problems)
    : std::runtime_error(joined(problems)), problems_(std::move(problems)) {}

BadInput::BadInput(std::string where, std::string what, std::string allowed)
    : BadInput(std::vector<Problem>{{std::move(where), std::move(what), std::move(allowed)}}) {}

std::string did_you_mean(const std::string& wrong, const std::vector<std::string>& names) {
    constexpr std::size_t longest = 64; // a longer word is no slip of the finger, and the distance is quadratic
    if (wrong.empty() || wrong.size() > longest) return {};
    const std::string* best = nullptr;
    std::size_t best_distance = wrong.size() / 4 + 1; // one slip in up to three letters, two in up to seven ...
    for (const std::string& name : names) {
        if (name.size() > longest) continue;
        const std::size_t distance = edit_distance(wrong, name);
        if (distance < best_distance || (distance == best_distance && best == nullptr)) {
            best = &name;
            best_distance = distance;
        }
    }
    // Nearly all letters changed is another word, not a slip.
    if (best == nullptr || best_distance >= std::min(wrong.size(), best->size())) return {};
    return "; did you mean \"" + *best + "\"?";
}

} // namespace tidemark::grid
