#include "plan/plan.h"

#include "plan/reading_detail.h"

namespace tidemark::plan {

int Step::area() const {
    return std::visit(
        [](const auto& a) {
            if constexpr (requires { a.area; })
                return a.area;
            else
                return whole_sheet;
        },
        act);
}

bool paints(const Step& s) {
    return std::holds_alternative<Wash>(s.act) || std::holds_alternative<Charge>(s.act) ||
           std::holds_alternative<Drybrush>(s.act) || std::holds_alternative<Body>(s.act);
}

int Plan::area_index(const std::string& name) const {
    for (std::size_t k = 0; k < areas.size(); ++k)
        if (areas[k].name == name)
            return static_cast<int>(k);
    return name == sheet_name ? whole_sheet : -2;
}

int Plan::step_index(const std::string& name) const {
    for (std::size_t k = 0; k < steps.size(); ++k)
        if (steps[k].name == name)
            return static_cast<int>(k);
    return -1;
}

std::vector<std::string> area_names(const Plan& plan) {
    std::vector<std::string> names;
    for (const Area& area : plan.areas)
        names.push_back(area.name);
    return names;
}

} // namespace tidemark::plan
