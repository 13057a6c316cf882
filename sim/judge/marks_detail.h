/// What the finders of marks have in common. Private to the room.
#pragma once
#include "grid/geodesic.h"
#include "judge/marks.h"
#include "judge/neighbours_detail.h"

#include <string>
#include <vector>

namespace tidemark::judge {

struct Scene {
    const plan::Plan& plan;
    const sheet::Record& record;
    const grid::Field<float>& lstar;
    const sheet::Geometry& geometry;
    PaintedMap map;
    double cell_mm = 0.5;
    double x_mm(double i) const { return (i + 0.5) * cell_mm; }
    const std::string& name(const sheet::ActRecord& act) const { return plan.steps[act.step].name; }
    std::string area(const sheet::ActRecord&) const;
};
void find_laps(const Scene&, const MarkRules&, std::vector<Mark>&);
void find_blooms(const Scene&, const MarkRules&, std::vector<Mark>&);
void find_runs(const Scene&, const std::vector<Edge>&, const MarkRules&, std::vector<Mark>&);

double minute_at(const sheet::ActRecord&, int i, int j); ///< when the act came to that cell
bool brings_paint(const sheet::ActRecord&);

/// Cells connected by sides and corners, each patch and all of them as met row by row; only of [0, nx) × [0, ny).
std::vector<std::vector<grid::Cell>> patches_of(const grid::Field<std::uint8_t>& in);
/// 1 within `reach` cells of a 1.
grid::Field<std::uint8_t> widened(const grid::Field<std::uint8_t>&, double reach);
/// Gaussian mean of L* over the cells that are in, `sd` in cells; 0 elsewhere.
grid::Field<float> smoothed(const grid::Field<float>& lstar, const grid::Field<std::uint8_t>& in, double sd);
/// Of a normal distribution's sample: its standard deviation, from the median absolute deviation from the median.
double spread(std::vector<double> v);

} // namespace tidemark::judge
