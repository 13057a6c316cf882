#include "sheet/ledger.h"

#include <cmath>

#include "grid/rows.h"

namespace tidemark::sheet {
namespace {

template <class T> double total_kg(const SheetState& s, const Field<T>& f, double factor = 1) {
    const auto& g = s.geometry;
    return factor * g.cell_area_m2() * grid::sum_rows(g.ny, static_cast<long>(g.nx) * g.ny, [&](int j) {
        const T* row = f.row(j);
        double sum = 0;
        for (int i = 0; i < g.nx; ++i) sum += row[i];
        return sum;
    });
}

double closure(double in, double out, double held) {
    const double error = in - out - held;
    return error == 0 ? 0 : std::abs(error) / std::max(std::abs(in), 1e-30);
}

} // namespace

LedgerLine check(const SheetState& s, const Ledger& flows) {
    LedgerLine line{.time_s = s.time_s, .flows = flows, .pigment_on_sheet_kg = {}};
    line.film_kg = total_kg(s, s.film_m, 1000.0) + total_kg(s, s.film_low_m, 1000.0);
    line.front_kg = total_kg(s, s.front_kg_m2);
    line.back_kg = total_kg(s, s.back_kg_m2);
    const double out = flows.evaporated_kg + flows.to_board_kg + flows.run_off_kg + flows.lifted_kg;
    line.water_closure = closure(flows.start_kg + flows.laid_kg, out, line.film_kg + line.front_kg + line.back_kg);
    for (std::size_t k = 0; k < s.pigments.size(); ++k) {
        const PigmentState& p = s.pigments[k];
        double held = total_kg(s, p.afloat_lower) + total_kg(s, p.afloat_upper) + total_kg(s, p.loose) +
                      total_kg(s, p.bound) + total_kg(s, p.inside);
        for (const Pass& pass : s.passes) held += total_kg(s, pass.bound[k]);
        line.pigment_on_sheet_kg.push_back(held);
        const double lifted = flows.pigment_lifted_kg.empty() ? 0 : flows.pigment_lifted_kg[k];
        const double laid = flows.pigment_laid_kg.empty() ? 0 : flows.pigment_laid_kg[k];
        line.pigment_closure = std::max(line.pigment_closure, closure(laid, lifted, held));
    }
    line.gum_on_sheet_kg =
        total_kg(s, s.gum_lower_kg_m2) + total_kg(s, s.gum_upper_kg_m2) + total_kg(s, s.gum_bound_kg_m2);
    line.pigment_closure =
        std::max(line.pigment_closure, closure(flows.gum_laid_kg, flows.gum_lifted_kg, line.gum_on_sheet_kg));
    return line;
}

} // namespace tidemark::sheet
