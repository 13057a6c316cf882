/// From a labelled picture to numbered masses; used by finding (with joins) and by merging.
#pragma once
#include "reference/masses.h"

#include <vector>

namespace tidemark::reference {

/// Which labels have become one. The root of a set is its lowest label, whatever the order of joining.
class JoinedLabels {
  public:
    int add() {
        parent_.push_back(static_cast<int>(parent_.size()));
        return parent_.back();
    }
    int root(int label) {
        while (parent_[label] != label)
            label = parent_[label] = parent_[parent_[label]];
        return label;
    }
    void join(int a, int b) {
        a = root(a), b = root(b);
        if (a < b)
            parent_[b] = a;
        else
            parent_[a] = b;
    }

  private:
    std::vector<int> parent_;
};

/// Labels of the regions that hang together along pixel sides: `same(p, q)` says whether two neighbours do. A region's
/// label is any number ≥ 0.
template <class Same> std::vector<int> hanging_together(int width, int height, Same&& same) {
    std::vector<int> label(static_cast<std::size_t>(width) * height);
    JoinedLabels joined;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const std::size_t p = static_cast<std::size_t>(y) * width + x;
            const bool left = x > 0 && same(p - 1, p), above = y > 0 && same(p - width, p);
            if (left && above)
                joined.join(label[p - 1], label[p - width]);
            label[p] = left ? label[p - 1] : above ? label[p - width] : joined.add();
        }
    for (int& l : label)
        l = joined.root(l);
    return label;
}

/// What each label in use has, from what each pixel has.
template <class Of> std::vector<int> by_label(const std::vector<int>& label, Of&& of) {
    std::vector<int> value;
    for (std::size_t p = 0; p < label.size(); ++p) {
        if (static_cast<std::size_t>(label[p]) >= value.size())
            value.resize(label[p] + 1);
        value[label[p]] = of(p);
    }
    return value;
}

/// `label`: one a pixel, any numbers ≥ 0; `group_of[label]`. Every label in use becomes one mass. `number_of[label]`: the
/// numbers that masses have already, no two alike; empty: they are numbered afresh.
Masses number_masses(int width, int height, const std::vector<int>& label, const std::vector<int>& group_of,
                     const ValueMap& map, const std::vector<int>& number_of = {});

} // namespace tidemark::reference
