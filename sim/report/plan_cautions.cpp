#include "report/plan_cautions.h"

#include <algorithm>

namespace tidemark::report {

namespace {

bool concerns(const materials::Caution& c, const plan::Plan& p, bool everyday) {
    const bool warm_air = std::any_of(p.steps.begin(), p.steps.end(), [](const plan::Step& s) {
        const auto* dry = std::get_if<plan::Dry>(&s.act);
        return dry != nullptr && dry->warm_air;
    });
    if (warm_air && c.concerns("warm-air"))
        return true;
    if (everyday && (c.concerns("every-plan") || (p.room.sun_W_m2 > 0 && c.concerns("sun"))))
        return true;
    return std::any_of(p.pigments.begin(), p.pigments.end(), [&](const materials::Pigment& k) {
        return (k.caution == "medium" || k.caution == "high") && c.concerns(k.id);
    });
}

} // namespace

std::vector<materials::Caution>
cautions_for(const plan::Plan& plan, const std::vector<materials::Caution>& all, bool everyday) {
    std::vector<materials::Caution> some;
    for (const materials::Caution& c : all)
        if (concerns(c, plan, everyday))
            some.push_back(c);
    return some;
}

} // namespace tidemark::report
