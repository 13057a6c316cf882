// What is written down of a run, and the ledger checked.
#include <fmt/format.h>

#include <cmath>

#include "grid/csv.h"
#include "grid/problem.h"
#include "pigment/bind.h"
#include "rehearsal/count_stages.h"
#include "rehearsal/rehearsal.h"
#include "rehearsal/stopwatch_detail.h"

namespace tidemark::rehearsal {

void Rehearsal::look_at_stages() {
    if (stages_at_s_ >= 0 && sheet_.time_s - stages_at_s_ < stages_every_s_ && sheet_.time_s != next_sample_s_) return;
    catch_up();
    Stopwatch watch(cost_.seconds[4]);
    stages_at_s_ = sheet_.time_s;
    const std::vector<StageCount> counts = count_stages(sheet_, areas_);
    stages_now_.assign(counts.size(), {});
    for (std::size_t a = 0; a < counts.size(); ++a) {
        const auto& cells = counts[a].cells;
        const long all = cells[0] + cells[1] + cells[2] + cells[3];
        stages_now_[a].time_s = sheet_.time_s;
        stages_now_[a].area = a == areas_.size() ? plan::whole_sheet : static_cast<int>(a);
        for (int k = 0; k < 4; ++k) stages_now_[a].share[k] = all ? static_cast<double>(cells[k]) / all : k == 3;
    }
}

void Rehearsal::record_moment() {
    const double now = sheet_.time_s;
    if (now >= next_sample_s_ - 1e-9) {
        next_sample_s_ = (std::floor(now / options_.sample_every_s + 1e-9) + 1) * options_.sample_every_s;
        stages_at_s_ = -1;
        look_at_stages();
        record_.stages.insert(record_.stages.end(), stages_now_.begin(), stages_now_.end());
    }
    if (now >= next_check_s_ - 1e-9) {
        catch_up();
        Stopwatch watch(cost_.seconds[5]);
        next_check_s_ = (std::floor(now / options_.check_every_s + 1e-9) + 1) * options_.check_every_s;
        record_.ledger.push_back(sheet::check(sheet_, ledger_));
        const auto& line = record_.ledger.back();
        if (line.water_closure > sheet::ledger_tolerance || line.pigment_closure > sheet::ledger_tolerance ||
            !std::isfinite(line.water_closure) || !std::isfinite(line.pigment_closure))
            throw grid::InternalError(fmt::format("the ledger does not close at {}: water {:.2g}, pigment {:.2g}",
                                                  grid::clock_text(now), line.water_closure, line.pigment_closure));
    }
}

void Rehearsal::finish() {
    over_ = true;
    catch_up();
    if (record_.dried) pigment::bind_dried(sheet_);
    record_.end_s = sheet_.time_s;
    next_check_s_ = next_sample_s_ = sheet_.time_s;
    record_moment();
}

} // namespace tidemark::rehearsal
