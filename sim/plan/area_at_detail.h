/// What an area covers at a place, 0 ... 1: the one door to masks, shapes and sets of areas.
///
/// A mask has one value a cell. A hard edge is a ramp as wide as the place asked for, so that the mean over the places
/// of a cell is the share that lies inside.
#pragma once
#include "grid/field.h"
#include "plan/plan.h"

#include <vector>

namespace tidemark::plan {

/// The least and the most that the area covers at any point of a place.
struct Span {
    float least = 1, most = 1;
    bool is_one_value() const { return least == most; }
};

/// All points within `reach_m` of a point; in cell (i, j), or, with i < 0, in several.
struct Place {
    double x_m = 0, y_m = 0, reach_m = 0;
    int i = -1, j = -1;
};

class AreaAt {
  public:
    /// For places on a grid of nx × ny cells. Errors: InternalError for areas that are made of each other.
    AreaAt(const Plan&, int area, int nx, int ny);
    /// `known`: room for the areas that this one is made of, kept between calls; one a thread.
    Span operator()(const Place&, double ramp_m, std::vector<Span>& known) const;
    double hardest_edge_m() const { return hardest_edge_m_; } ///< the least soft_m of all shapes it is made of

  private:
    struct Node {
        const Area* area;
        grid::Field<float> mask;     ///< of a mask, by cell
        std::vector<int> parts = {}; ///< of a set: indices of earlier nodes, or whole_sheet
    };
    int add(const Plan&, int area, int nx, int ny, std::vector<int>& node_of);
    Span value(const Node&, const Place&, double ramp_m, const std::vector<Span>& known) const;
    std::vector<Node> nodes_; ///< each after those it is made of; the area itself last
    double hardest_edge_m_ = 1e9;
};

} // namespace tidemark::plan
