#include "water/stubborn.h"

#include <algorithm>
#include <limits>

namespace tidemark::water {
namespace {

constexpr double most_share = 0.03; // of all patches
constexpr float lessened = 0.25f;   // what a cycle leaves of a residual where it helps, at most
constexpr std::int32_t none = -2, unclaimed = -1;

} // namespace

Stubborn::Stubborn(int nx, int ny) : px_(nx / patch), py_(ny / patch) {
    worst_.assign(static_cast<std::size_t>(px_) * py_, 0.0f);
    before_ = worst_;
    part_.assign(worst_.size(), none);
}

void Stubborn::start() { std::fill(before_.begin(), before_.end(), std::numeric_limits<float>::infinity()); }

/// Gives every patch that hangs together with `from` the number `part`.
void Stubborn::join(int from, int part) {
    open_.assign(1, from);
    part_[from] = part;
    while (!open_.empty()) {
        const int p = open_.back(), x = p % px_, y = p / px_;
        open_.pop_back();
        for (int v = std::max(0, y - 1); v <= std::min(py_ - 1, y + 1); ++v)
            for (int u = std::max(0, x - 1); u <= std::min(px_ - 1, x + 1); ++u)
                if (part_[v * px_ + u] == unclaimed)
                    part_[v * px_ + u] = part, open_.push_back(v * px_ + u);
    }
}

/// Patches that stand still, and their neighbours, are left unclaimed. Returns how many stand still.
int Stubborn::mark(float above) {
    std::fill(part_.begin(), part_.end(), none);
    int marked = 0;
    for (int y = 0; y < py_; ++y)
        for (int x = 0; x < px_; ++x) {
            const float now = worst_[y * px_ + x];
            if (!(now > above && now > lessened * before_[y * px_ + x]))
                continue;
            ++marked;
            for (int v = std::max(0, y - 1); v <= std::min(py_ - 1, y + 1); ++v)
                for (int u = std::max(0, x - 1); u <= std::min(px_ - 1, x + 1); ++u)
                    part_[v * px_ + u] = unclaimed;
        }
    return marked;
}

const std::vector<Stubborn::Part>& Stubborn::find(float above) {
    parts_.clear();
    const int marked = mark(above);
    before_ = worst_;
    if (marked == 0 || marked > most_share * px_ * py_)
        return parts_;
    int parts = 0;
    for (int p = 0; p < px_ * py_; ++p)
        if (part_[p] == unclaimed)
            join(p, parts++);
    parts_.resize(parts);
    for (int y = 0; y < py_; ++y)
        for (int j = y * patch; j < (y + 1) * patch; ++j)
            for (int x = 0; x < px_;) {
                const std::int32_t part = part_[y * px_ + x];
                const int begin = x;
                while (x < px_ && part_[y * px_ + x] == part) ++x;
                if (part != none)
                    parts_[part].push_back({j, begin * patch, x * patch});
            }
    return parts_;
}

} // namespace tidemark::water
