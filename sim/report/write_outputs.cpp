#include "report/write_outputs.h"

#include "report/advice_text.h"
#include "report/enlarge.h"
#include "report/record_table.h"
#include "report/tables.h"
#include "report/value_compare.h"
#include "sheet/look.h"

#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

constexpr double sheet_pixels_per_mm = 8, frame_pixels_per_mm = 4;

std::vector<std::uint8_t> picture(const grid::Picture& cells, double cell_m, double pixels_per_mm) {
    const int factor = enlargement(cells.width, cells.height, cell_m, pixels_per_mm);
    return grid::png_bytes(enlarged(cells, factor), factor / cell_m);
}

} // namespace

judge::Verdicts write_outputs(const Inputs& in, grid::OutputFolder& out) {
    return write_outputs(in, sheet::look(in.sheet, sheet::LookAs::dried), out);
}

judge::Verdicts write_outputs(const Inputs& in, const sheet::Look& dried, grid::OutputFolder& out) {
    const judge::Verdicts v = judge::judge_run(in.plan, in.record, dried.lstar, in.sheet.geometry);
    if (!in.finished_dry) out.write("sheet-wet.png", sheet_picture(in.sheet, sheet::LookAs::as_now));
    write_judged(in.plan, in.record, v, dried, in.sheet.geometry, in.brushes, out);
    return v;
}

void write_judged(const plan::Plan& plan, const sheet::Record& record, const judge::Verdicts& v, const sheet::Look& dried,
                  const sheet::Geometry& geometry, const std::vector<materials::Brush>& brushes, grid::OutputFolder& out) {
    out.write("sheet.png", picture(dried.picture, geometry.cell_m, sheet_pixels_per_mm));
    if (v.values.has_reference)
        out.write("value-compare.png", grid::png_bytes(value_compare(v.values, dried.lstar)));
    out.write("edges.csv", edges_table(plan, v.edges, v.wants));
    out.write("stretches.csv", stretches_table(plan, v.edges));
    out.write("marks.csv", marks_table(plan, v.marks));
    out.write("windows.csv", windows_table(plan, v.windows));
    out.write("values.csv", values_table(v.values));
    out.write("mixes.csv", mixes_table(v.mixes));
    out.write("brushes.csv", brushes_table(v.mixes, brushes));
    out.write("record.csv", record_table(plan, record));
    out.write("ledger.csv", ledger_table(record.ledger));
}

void write_advice(const plan::Plan& p, const judge::Verdicts& v, grid::OutputFolder& out) {
    out.write("advice.csv", advice_table(*v.advice));
    out.write("moments.csv", moments_table(p, v.moments));
}

void write_page(const Inputs& in,
                const judge::Verdicts& v,
                const sheet::Look& dried,
                const std::optional<WetSheet>& wet,
                const std::vector<materials::Caution>& cautions,
                grid::OutputFolder& out) {
    out.write("report.html", page_text({in.plan, in.record, v, dried, wet, cautions}));
}

std::vector<std::uint8_t> sheet_picture(const sheet::SheetState& sheet, sheet::LookAs as) {
    return picture(sheet::look(sheet, as).picture, sheet.geometry.cell_m, sheet_pixels_per_mm);
}

std::string frame_name(double time_s) {
    const long long s = std::llround(time_s);
    return fmt::format("frames/{:04}m{:02}s.png", s / 60, s % 60);
}

void write_frame(const sheet::SheetState& sheet, grid::OutputFolder& out) {
    const sheet::Look now = sheet::look(sheet, sheet::LookAs::as_now);
    out.write(frame_name(sheet.time_s), picture(now.picture, sheet.geometry.cell_m, frame_pixels_per_mm));
}

} // namespace tidemark::report
