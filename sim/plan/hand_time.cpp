#include "plan/read_plan.h"

#include <cmath>
#include <numbers>

namespace tidemark::plan {

namespace {

struct HandTime {
    double area_m2;
    double operator()(const Wet& wet) const { return area_m2 / wet.pace_m2_s; }
    double operator()(const Wash& wash) const { return area_m2 / wash.pace_m2_s; }
    double operator()(const Charge& charge) const { return charge.count * charge.seconds_per_drop; }
    double operator()(const Lift& lift) const { return area_m2 / lift.pace_m2_s; }
    double operator()(const Spatter& spatter) const { return spatter.seconds; }
    double operator()(const Spray& spray) const { return spray.seconds; }
    double operator()(const Drybrush& brush) const { return area_m2 / brush.pace_m2_s; }
    /// The boundary's length is not known here: that of a disc of this area, at least.
    double operator()(const Soften& soften) const { return std::sqrt(4 * std::numbers::pi * area_m2) / soften.speed_m_s; }
    double operator()(const Reserve& reserve) const { return area_m2 / reserve.pace_m2_s; }
    double operator()(const Uncover& uncover) const { return area_m2 / uncover.pace_m2_s; }
    double operator()(const Body& body) const { return area_m2 / body.pace_m2_s; }
    double operator()(const Tilt&) const { return 0; }
    double operator()(const Dry& dry) const { return dry.longest_s; }
};

} // namespace

double hand_time_s(const Step& step, double area_m2) { return std::visit(HandTime{area_m2}, step.act); }

} // namespace tidemark::plan
