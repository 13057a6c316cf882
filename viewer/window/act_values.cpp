#include "viewer/window/act_values.h"

#include <fmt/format.h>

#include "grid/units.h"

namespace tidemark::viewer {

namespace {

using grid::g_m2_from_kg_m2;
using grid::mm_from_m;
using grid::um_from_m;

double cm2_s(double m2_s) { return 1e4 * m2_s; }
constexpr double deg = 57.29577951308232;

struct Values {
    std::string where;
    std::vector<ActValue> all{};
    void add(const char* key, const char* label, const char* unit, double value, double lowest, double highest, double step,
             int decimals = 0) {
        all.push_back({where, key, label, unit, value, lowest, highest, step, decimals});
    }
    void pace(double m2_s, double highest = 60) { add("pace_cm2_s", "pace", "cm²/s", cm2_s(m2_s), 0.5, highest, 0.5, 1); }
};

struct OfAct {
    Values& v;
    void operator()(const plan::Wet& a) const {
        v.add("water_g_m2", "water", "g/m²", g_m2_from_kg_m2(a.water_kg_m2), 10, 400, 5);
        v.pace(a.pace_m2_s, 100);
    }
    void operator()(const plan::Wash& a) const {
        v.add("film_um", "water laid", "µm", um_from_m(a.film_m), 10, 300, 2);
        v.pace(a.pace_m2_s);
    }
    void operator()(const plan::Charge& a) const {
        v.add("drops", a.stroke_m > 0 ? "strokes" : "drops", "", a.count, 1, 200, 1);
        v.add("drop_uL", "size of each", "µL", 1e9 * a.drop_m3, 1, 100, 0.5, 1);
    }
    void operator()(const plan::Tilt& a) const { v.add("angle_deg", "tilt", "°", deg * a.angle_rad, 0, 30, 1); }
    void operator()(const plan::Dry&) const {}
    void operator()(const plan::Lift& a) const { v.pace(a.pace_m2_s, 20); }
    void operator()(const plan::Spatter& a) const { v.add("drops", "drops", "", a.count, 1, 300, 1); }
    void operator()(const plan::Spray& a) const {
        v.add("water_g_m2", "water", "g/m²", g_m2_from_kg_m2(a.water_kg_m2), 1, 150, 1);
    }
    void operator()(const plan::Drybrush& a) const {
        v.add("film_um", "paint on the peaks", "µm", um_from_m(a.film_m), 5, 150, 5);
        v.pace(a.pace_m2_s);
    }
    void operator()(const plan::Soften& a) const {
        v.add("width_mm", "width", "mm", mm_from_m(a.width_m), 1, 30, 0.5, 1);
        v.add("water_g_m2", "water", "g/m²", g_m2_from_kg_m2(a.water_kg_m2), 5, 150, 5);
    }
    void operator()(const plan::Reserve&) const {}
    void operator()(const plan::Uncover&) const {}
    void operator()(const plan::Body& a) const {
        v.add("paint_g_m2", "paint", "g/m²", g_m2_from_kg_m2(a.paint_kg_m2), 5, 200, 5);
    }
};

int mix_of(const plan::Act& act) {
    return std::visit(
        [](const auto& a) {
            if constexpr (requires { a.mix; })
                return a.mix;
            else
                return -1;
        },
        act);
}

} // namespace

std::vector<ActValue> act_values(const plan::Plan& plan, int step) {
    const plan::Step& s = plan.steps[static_cast<std::size_t>(step)];
    Values v{s.name};
    std::visit(OfAct{v}, s.act);
    if (const int mix = mix_of(s.act); mix > 0 && mix < static_cast<int>(plan.mixes.size())) {
        const plan::Mix& m = plan.mixes[static_cast<std::size_t>(mix)];
        v.where = "mix." + m.name;
        for (const plan::PigmentShare& p : m.pigments) {
            const std::string& id = plan.pigments[static_cast<std::size_t>(p.pigment)].id;
            const std::string name = id == m.name ? id + " " + plan.pigments[static_cast<std::size_t>(p.pigment)].name : id + " in " + m.name;
            v.all.push_back({v.where, id, name, "%", 100 * p.mass_fraction, 0.05,
                             std::max(6.0, 200 * p.mass_fraction), 0.05, 2});
        }
    }
    return v.all;
}

std::string value_text(double value, int decimals) {
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.find('.') != std::string::npos) {
        while (text.back() == '0')
            text.pop_back();
        if (text.back() == '.')
            text.pop_back();
    }
    return text;
}

} // namespace tidemark::viewer
