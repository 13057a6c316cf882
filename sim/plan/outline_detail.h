/// Distances from shapes, m: negative inside, positive outside, to the nearest point of the outline. Exact, so that
/// within a distance r of a point they change by r at most. Only with square roots: the same bytes on any machine.
#pragma once
#include "plan/area.h"

namespace tidemark::plan {

double distance_m(const Rectangle&, double x_m, double y_m);
double distance_m(const Ellipse&, double x_m, double y_m);
double distance_m(const Polygon&, double x_m, double y_m);
double distance_m(const Line&, double x_m, double y_m);

} // namespace tidemark::plan
