/// What an area covers at a place, 0 ... 1: the one door to masks, shapes and sets of areas.
///
/// A mask has one value a cell. A hard edge is a ramp as wide as the points asked for lie apart, so that the mean over
/// the points of a cell is the share that lies inside.
#pragma once
#include "grid/field.h"
#include "plan/outline_detail.h"
#include "plan/plan.h"

#include <variant>
#include <vector>

namespace tidemark::plan {

/// The least and the most that the area covers at any point of a place.
struct Span {
    float least = 1, most = 1;
    bool is_one_value() const { return least == most; }
};

/// All points within `reach_m` of a point, in the square of `cells` × `cells` cells that begins with (i, j).
struct Place {
    double x_m = 0, y_m = 0, reach_m = 0;
    int i = 0, j = 0, cells = 1;
};

/// An area and all that it is made of.
class AreaNodes {
  public:
    struct Node {
        const Area* area;
        grid::Field<float> mask;     ///< of a mask, by cell
        std::vector<int> parts = {}; ///< of a set: indices of earlier nodes, or whole_sheet
    };
    /// On a grid of nx × ny cells. Errors: InternalError for areas that are made of each other.
    AreaNodes(const Plan&, int area, int nx, int ny);
    const std::vector<Node>& nodes() const { return nodes_; } ///< each after those it is made of; the area itself last
    double hardest_edge_m() const { return hardest_edge_m_; } ///< the least soft_m of all shapes among them

  private:
    int add(const Plan&, int area, int nx, int ny, std::vector<int>& node_of);
    std::vector<Node> nodes_;
    double hardest_edge_m_ = 1e9;
};

/// The area within one place: what doesn't change there is known once, and of outlines only the pieces near by.
/// Not to be shared by threads.
class AreaNear {
  public:
    AreaNear(const AreaNodes&, const Place&, double ramp_m);
    Span whole() const { return whole_; }  ///< of the place
    Span at(const Place&);                 ///< of one that lies in it

  private:
    using Form = std::variant<Span, const Rectangle*, const Ellipse*, NearOutline, const grid::Field<float>*,
                              const AreaSet*>;
    struct Node {
        Form form;
        double ramp_m;
        const std::vector<int>* parts;
    };
    Span value(const Node&, const Place&) const;
    std::vector<Node> nodes_;
    std::vector<Span> known_; ///< by node
    Span whole_;
};

} // namespace tidemark::plan
