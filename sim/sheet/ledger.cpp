#include "sheet/ledger.h"

#include <algorithm>
#include <cmath>

#include "grid/rows.h"
#include "grid/units.h"

namespace tidemark::sheet {
namespace {

constexpr int together = 8;

/// A double sum waits for the one before: eight rows side by side, each in its own order, keep the processor busy.
template <class T> void sum_eight(const Field<T>& f, int j, int nx, double* sums) {
    const T* row[together];
    double sum[together] = {};
    for (int k = 0; k < together; ++k) row[k] = f.row(j + k);
    for (int i = 0; i < nx; ++i)
        for (int k = 0; k < together; ++k) sum[k] += row[k][i];
    std::copy_n(sum, together, sums);
}

template <class T> double sum_row(const T* row, int nx) {
    double sum = 0;
    for (int i = 0; i < nx; ++i) sum += row[i];
    return sum;
}

/// Sum over the cells, by field. All fields are shared out at once: one alone is hardly worth it.
template <class T> std::vector<double> totals(const SheetState& s, const std::vector<const Field<T>*>& fields) {
    const int nx = s.geometry.nx, ny = s.geometry.ny, blocks = (ny + together - 1) / together;
    const int n = static_cast<int>(fields.size());
    std::vector<double> rows(fields.size() * static_cast<std::size_t>(ny)), sums;
    grid::for_rows(n * blocks, static_cast<long>(n) * nx * ny, [&](int k) {
        const Field<T>& f = *fields[k / blocks];
        double* out = rows.data() + static_cast<std::size_t>(k / blocks) * ny;
        const int begin = k % blocks * together, end = std::min(begin + together, ny);
        if (end - begin == together) return sum_eight(f, begin, nx, out + begin);
        for (int j = begin; j < end; ++j) out[j] = sum_row(f.row(j), nx);
    });
    for (int k = 0; k < n; ++k) {
        double sum = 0;
        for (int j = 0; j < ny; ++j) sum += rows[static_cast<std::size_t>(k) * ny + j];
        sums.push_back(sum);
    }
    return sums;
}

double closure(double in, double out, double held) {
    const double error = in - out - held;
    return error == 0 ? 0 : std::abs(error) / std::max(std::abs(in), 1e-30);
}

} // namespace

LedgerLine check(const SheetState& s, const Ledger& flows) {
    LedgerLine line{.time_s = s.time_s, .flows = flows, .pigment_on_sheet_kg = {}};
    std::vector<const Field<float>*> fields;
    for (const PigmentState& p : s.pigments) {
        fields.insert(fields.end(), {&p.afloat_lower, &p.afloat_upper, &p.loose, &p.bound, &p.inside});
        for (const Pass& pass : s.passes) fields.push_back(&pass.bound[&p - s.pigments.data()]);
    }
    fields.insert(fields.end(), {&s.gum_lower_kg_m2, &s.gum_upper_kg_m2, &s.gum_bound_kg_m2, &s.film_m, &s.film_low_m});
    const std::vector<double> sums = totals(s, fields), halves = totals<double>(s, {&s.front_kg_m2, &s.back_kg_m2});
    const double area_m2 = s.geometry.cell_area_m2(), *next = sums.data();
    for (std::size_t k = 0; k < s.pigments.size(); ++k) {
        double held = 0;
        for (std::size_t f = 0; f < 5 + s.passes.size(); ++f) held += area_m2 * *next++;
        line.pigment_on_sheet_kg.push_back(held);
        const double lifted = flows.pigment_lifted_kg.empty() ? 0 : flows.pigment_lifted_kg[k];
        const double laid = flows.pigment_laid_kg.empty() ? 0 : flows.pigment_laid_kg[k];
        line.pigment_closure = std::max(line.pigment_closure, closure(laid, lifted, held));
    }
    line.gum_on_sheet_kg = area_m2 * next[0] + area_m2 * next[1] + area_m2 * next[2];
    line.pigment_closure =
        std::max(line.pigment_closure, closure(flows.gum_laid_kg, flows.gum_lifted_kg, line.gum_on_sheet_kg));
    line.film_kg = grid::water_kg_m3 * area_m2 * next[3] + grid::water_kg_m3 * area_m2 * next[4];
    line.front_kg = area_m2 * halves[0], line.back_kg = area_m2 * halves[1];
    const double out = flows.evaporated_kg + flows.to_board_kg + flows.run_off_kg + flows.lifted_kg;
    line.water_closure = closure(flows.start_kg + flows.laid_kg, out, line.film_kg + line.front_kg + line.back_kg);
    return line;
}

} // namespace tidemark::sheet
