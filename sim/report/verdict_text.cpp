#include "report/verdict_text.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

std::string edge_text(const std::string& word, double width_mm, double delta_L) {
    const bool has_width = !std::isnan(width_mm) && delta_L >= judge::EdgeRules{}.lost_below_L;
    if (!has_width)
        return word;
    return width_mm < 0.05 ? word + ", under 0.1 mm" : fmt::format("{}, {:.1f} mm", word, width_mm);
}

std::string agreement_text(const judge::Values& v) {
    if (!v.has_reference)
        return {};
    std::string text = fmt::format("{:.0f} % of the sheet in the reference's group", 100 * v.right_share);
    if (!std::isnan(v.weighted_kappa))
        text += fmt::format(" (weighted kappa {:.2f})", v.weighted_kappa);
    if (!std::isnan(v.distant_kappa))
        text += fmt::format("; reads at three metres: kappa {:.2f}", v.distant_kappa);
    return text;
}

std::vector<const judge::Mark*> plainest(const std::vector<judge::Mark>& marks) {
    std::vector<const judge::Mark*> plain;
    for (const judge::Mark& m : marks)
        plain.push_back(&m);
    std::stable_sort(plain.begin(), plain.end(), [](const auto* a, const auto* b) {
        return a->size_mm * (a->dark_L + a->pale_L) > b->size_mm * (b->dark_L + b->pale_L);
    });
    return plain;
}

} // namespace tidemark::report
