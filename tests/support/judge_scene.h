/// Invented sheets for the judge: areas, washes and lightness given as functions of x and y in millimetres.
#pragma once
#include "judge/edges.h"

#include <cmath>
#include <random>
#include <string>

namespace judge_scene {

using namespace tidemark;

struct Scene {
    plan::Plan plan;
    sheet::Record record;
    sheet::Geometry geometry;
    grid::Field<float> lstar;
    std::vector<judge::Edge> edges(const judge::EdgeRules& rules = {}) const {
        return judge::judge_edges(plan, record, lstar, geometry, rules);
    }
};

inline Scene make_scene(double width_mm, double height_mm, double cell_mm = 0.5) {
    Scene s;
    s.geometry.nx = static_cast<int>(std::lround(width_mm / cell_mm));
    s.geometry.ny = static_cast<int>(std::lround(height_mm / cell_mm));
    s.geometry.px = s.geometry.nx, s.geometry.py = s.geometry.ny;
    s.geometry.cell_m = cell_mm * 1e-3;
    s.plan.width_m = width_mm * 1e-3, s.plan.height_m = height_mm * 1e-3;
    s.plan.mixes.resize(1);
    s.record.cell_m = s.geometry.cell_m;
    s.lstar.resize(s.geometry.nx, s.geometry.ny, 95.0f);
    return s;
}

/// Coverage by 4 × 4 points a cell; `inside(x_mm, y_mm)`.
template <class Inside> int add_area(Scene& s, const std::string& name, Inside&& inside) {
    plan::Area a;
    a.name = name;
    a.file = name + ".png";
    const double cell_mm = s.geometry.cell_m * 1e3;
    a.mask.width = s.geometry.nx, a.mask.height = s.geometry.ny;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            int hits = 0;
            for (int k = 0; k < 16; ++k)
                hits += inside((i + (k % 4 + 0.5) / 4) * cell_mm, (j + (k / 4 + 0.5) / 4) * cell_mm) ? 1 : 0;
            a.mask.value.push_back(static_cast<float>(hits) / 16);
        }
    s.plan.areas.push_back(std::move(a));
    return static_cast<int>(s.plan.areas.size()) - 1;
}

inline void add_wash(Scene& s, const std::string& step_name, int area) {
    plan::Step step;
    step.name = step_name;
    plan::Wash wash;
    wash.area = area;
    step.act = wash;
    s.plan.steps.push_back(step);
    sheet::ActRecord act;
    act.step = static_cast<int>(s.plan.steps.size()) - 1;
    act.start_s = 60.0 * act.step, act.end_s = act.start_s + 30;
    act.water_kg = 1e-3;
    s.record.acts.push_back(act);
    s.record.end_s = 3600;
}

/// Lightness at cell centres.
template <class Lstar> void paint(Scene& s, Lstar&& lstar) {
    const double cell_mm = s.geometry.cell_m * 1e3;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            s.lstar(i, j) = static_cast<float>(lstar((i + 0.5) * cell_mm, (j + 0.5) * cell_mm));
}

/// Every cell darker or lighter by its own amount, as granulation does.
inline void granulate(Scene& s, double sd_L, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<float> grain(0.0f, static_cast<float>(sd_L));
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            s.lstar(i, j) += grain(random);
}

/// A step from `inside` (negative distances) to `outside`, blurred by a Gaussian; s = 0: sharp.
inline double blurred_step(double distance_mm, double s_mm, double inside, double outside) {
    if (s_mm <= 0)
        return distance_mm < 0 ? inside : outside;
    return inside + (outside - inside) * 0.5 * std::erfc(-distance_mm / (s_mm * std::sqrt(2.0)));
}

/// One wash left of a straight line through the middle of the sheet, turned by an angle; paper beyond.
/// `across(d)` is L* at the signed distance d mm from the line.
template <class Across>
Scene tilted_edge(double angle_deg, Across&& across, double size_mm = 80, double cell_mm = 0.5) {
    Scene s = make_scene(size_mm, size_mm, cell_mm);
    const double a = angle_deg * 3.14159265358979 / 180, c = std::cos(a), n = std::sin(a), half = 0.5 * size_mm;
    const auto distance = [=](double x, double y) { return (x - half) * c + (y - half) * n; };
    add_wash(s, "wash", add_area(s, "shape", [&](double x, double y) { return distance(x, y) < 0; }));
    paint(s, [&](double x, double y) { return across(distance(x, y)); });
    return s;
}

} // namespace judge_scene
