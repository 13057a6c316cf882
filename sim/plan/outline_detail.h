/// Distances from shapes, m: negative inside, positive outside, to the nearest point of the outline. Exact, so that
/// within a distance r of a point they change by r at most. Only with square roots: the same bytes on any machine.
#pragma once
#include "plan/area.h"

#include <utility>

namespace tidemark::plan {

double distance_m(const Rectangle&, double x_m, double y_m);
double distance_m(const Ellipse&, double x_m, double y_m);

/// A polygon or a line near a place, all points within `reach_m` of one: answers there as the whole outline does, but
/// from those of its pieces that can matter. Without it the work of a scribble of 200 points would be 200 pieces for
/// each point looked at.
class NearOutline {
  public:
    NearOutline(const Polygon&, double x_m, double y_m, double reach_m);
    NearOutline(const Line&, double x_m, double y_m, double reach_m);
    double distance_m(double x_m, double y_m) const; ///< of a point of the place

  private:
    using Piece = std::pair<Point, Point>;
    /// The nearest piece of the whole at any point of the place is one of those within `reach_m` twice of the
    /// nearest at its centre. Returns the others.
    std::vector<Piece> keep_near(const std::vector<Piece>&, double x_m, double y_m, double reach_m);
    void keep_far(const std::vector<Piece>&, double x_m, double y_m, double reach_m);
    bool is_inside(double x_m, double y_m) const;

    std::vector<Piece> pieces_;
    bool is_closed_;
    double half_width_m_;           ///< of a line
    /// A ray to the right that starts in the place crosses a far piece, or doesn't, by its height alone: the far
    /// pieces' ends below it are odd in number or even.
    bool is_odd_ = false;           ///< those that are below any such ray
    std::vector<double> ends_y_m_;  ///< those that are at the place's height
};

} // namespace tidemark::plan
