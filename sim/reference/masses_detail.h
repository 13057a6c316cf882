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

/// `label`: one a pixel, any numbers ≥ 0; `group_of[label]`. Every label in use becomes one mass.
Masses number_masses(
    int width, int height, const std::vector<int>& label, const std::vector<int>& group_of, const ValueMap& map);

} // namespace tidemark::reference
