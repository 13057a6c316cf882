#include "plan/read_plan.h"

namespace tidemark::plan {

namespace {

struct HandTime {
    double area_m2;
    double operator()(const Wet& wet) const { return area_m2 / wet.pace_m2_s; }
    double operator()(const Wash& wash) const { return area_m2 / wash.pace_m2_s; }
    double operator()(const Charge& charge) const { return charge.count * charge.seconds_per_drop; }
    double operator()(const Tilt&) const { return 0; }
    double operator()(const Dry& dry) const { return dry.longest_s; }
};

} // namespace

double hand_time_s(const Step& step, double area_m2) { return std::visit(HandTime{area_m2}, step.act); }

} // namespace tidemark::plan
