#include "plan/outline_detail.h"

#include <algorithm>
#include <cmath>

namespace tidemark::plan {

namespace {

double length(double x, double y) { return std::sqrt(x * x + y * y); }

/// Does a ray from (x, y) to the right cross the edge from a to b?
bool is_crossed(const Point& a, const Point& b, double x, double y) {
    return (a.y_m > y) != (b.y_m > y) && x < a.x_m + (y - a.y_m) / (b.y_m - a.y_m) * (b.x_m - a.x_m);
}

/// Distance to the outline from (x, y) in the first quadrant, half axes a >= b. The nearest point (X, Y) has the
/// outline's normal through (x, y): X = a² x / (t + a²), Y = b² y / (t + b²). With t = b² s, X and Y lie on the
/// outline where f(s) = (n / (s + r))² + (v / (s + 1))² - 1 is 0, n = a x / b², v = y / b, r = (a / b)².
/// f falls and is convex from the left of its last root on, so that Newton's steps never overshoot.
double to_ellipse(double a, double b, double x, double y) {
    if (a == b)
        return std::fabs(length(x, y) - a);
    const double r = (a / b) * (a / b), n = a * x / (b * b), v = y / b;
    if (v == 0 && a * x < a * a - b * b) { // nearer to the two long sides than to the end
        const double share = x * a / (a * a - b * b);
        return length(a * share - x, b * std::sqrt(std::max(0.0, 1 - share * share)));
    }
    double s = std::max(v - 1, n - r);
    for (int k = 0; k < 60; ++k) {
        const double p = n / (s + r), q = v > 0 ? v / (s + 1) : 0;
        const double slope = p * p / (s + r) + (v > 0 ? q * q / (s + 1) : 0);
        const double ahead = (p * p + q * q - 1) / (2 * slope);
        if (!(ahead > 1e-14 * (s + 1)))
            break;
        s += ahead;
    }
    const double nearest_x = r * x / (s + r), nearest_y = v > 0 ? y / (s + 1) : 0;
    return length(x - nearest_x, y - nearest_y);
}

} // namespace

double squared_distance_m2(const Point& a, const Point& b, double x_m, double y_m) {
    const double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m, px = x_m - a.x_m, py = y_m - a.y_m;
    const double squared = dx * dx + dy * dy;
    const double along = squared > 0 ? std::clamp((px * dx + py * dy) / squared, 0.0, 1.0) : 0.0;
    const double ex = px - along * dx, ey = py - along * dy;
    return ex * ex + ey * ey;
}

double distance_m(const Rectangle& r, double x_m, double y_m) {
    const double x = std::fabs(x_m - r.x_m - r.width_m / 2) - r.width_m / 2;
    const double y = std::fabs(y_m - r.y_m - r.height_m / 2) - r.height_m / 2;
    return length(std::max(x, 0.0), std::max(y, 0.0)) + std::min(std::max(x, y), 0.0);
}

double distance_m(const Ellipse& e, double x_m, double y_m) {
    double a = e.width_m / 2, b = e.height_m / 2, x = std::fabs(x_m - e.x_m), y = std::fabs(y_m - e.y_m);
    if (a < b)
        std::swap(a, b), std::swap(x, y);
    const bool inside = (x / a) * (x / a) + (y / b) * (y / b) < 1;
    return inside ? -to_ellipse(a, b, x, y) : to_ellipse(a, b, x, y);
}

namespace {

using Piece = std::pair<Point, Point>;

std::vector<Piece> pieces_of(const std::vector<Point>& points, bool is_closed) {
    std::vector<Piece> pieces;
    for (std::size_t k = 1; k < points.size(); ++k)
        pieces.push_back({points[k - 1], points[k]});
    if (is_closed)
        pieces.push_back({points.back(), points.front()});
    return pieces;
}

} // namespace

NearOutline::NearOutline(const Polygon& polygon, double x_m, double y_m, double reach_m)
    : is_closed_(true), half_width_m_(0) {
    keep_far(keep_near(pieces_of(polygon.corners, true), x_m, y_m, reach_m), x_m, y_m, reach_m);
}

NearOutline::NearOutline(const Line& line, double x_m, double y_m, double reach_m)
    : is_closed_(false), half_width_m_(line.width_m / 2) {
    keep_near(pieces_of(line.points, false), x_m, y_m, reach_m);
}

std::vector<Piece> NearOutline::keep_near(const std::vector<Piece>& all, double x_m, double y_m, double reach_m) {
    std::vector<double> squared;
    for (const Piece& piece : all)
        squared.push_back(squared_distance_m2(piece.first, piece.second, x_m, y_m));
    const double nearest = std::sqrt(*std::min_element(squared.begin(), squared.end()));
    const double near = (nearest + 2 * reach_m) * (1 + 1e-9);
    std::vector<Piece> far;
    for (std::size_t k = 0; k < all.size(); ++k)
        (squared[k] <= near * near ? pieces_ : far).push_back(all[k]);
    return far;
}

/// No far piece comes within 2 reach: at the place's height it is to the left of all of it, or to the right.
void NearOutline::keep_far(const std::vector<Piece>& far, double x_m, double y_m, double reach_m) {
    for (const auto& [a, b] : far) {
        const auto [top, bottom] = std::minmax(a.y_m, b.y_m);
        if (top == bottom || top > y_m + reach_m || bottom < y_m - reach_m)
            continue;
        const double share = (std::clamp(y_m, top, bottom) - a.y_m) / (b.y_m - a.y_m);
        if (a.x_m + share * (b.x_m - a.x_m) < x_m)
            continue;
        for (const double end : {a.y_m, b.y_m})
            if (end > y_m + reach_m)
                is_odd_ = !is_odd_;
            else if (end >= y_m - reach_m)
                ends_y_m_.push_back(end);
    }
}

bool NearOutline::is_inside(double x_m, double y_m) const {
    bool inside = is_odd_;
    for (const double end : ends_y_m_)
        inside = inside != (end > y_m);
    for (const auto& [a, b] : pieces_)
        inside = inside != is_crossed(a, b, x_m, y_m);
    return inside;
}

double NearOutline::distance_m(double x_m, double y_m) const {
    double squared = 1e30;
    for (const auto& [a, b] : pieces_)
        squared = std::min(squared, squared_distance_m2(a, b, x_m, y_m));
    const double distance = std::sqrt(squared);
    return is_closed_ && is_inside(x_m, y_m) ? -distance : distance - half_width_m_;
}

} // namespace tidemark::plan
