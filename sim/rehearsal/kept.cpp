#include "rehearsal/kept.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "grid/csv.h"
#include "grid/problem.h"
#include "sheet/archive.h"

namespace tidemark::rehearsal {
namespace {

constexpr const char* a_moment = "a moment kept by tidemark rehearse --keep";
constexpr const char* extension = ".moment";

/// Milliseconds from a name as kept_name() gives it, without the folder; -1 for any other file.
long long milliseconds(const std::string& name) {
    long long minutes = -1, seconds = -1, thousandths = -1;
    const char *at = name.data(), *end = at + name.size();
    const auto number = [&](long long& to, const char* then) {
        const auto read = std::from_chars(at, end, to);
        const std::string_view rest(read.ptr, static_cast<std::size_t>(end - read.ptr)), word(then);
        if (read.ec != std::errc{} || to < 0 || to > 1'000'000 || rest.substr(0, word.size()) != word) return false;
        at = read.ptr + word.size();
        return true;
    };
    if (!number(minutes, "m") || !number(seconds, ".") || !number(thousandths, "s.moment") || at != end) return -1;
    return (minutes * 60 + seconds) * 1000 + thousandths;
}

} // namespace

/// Not kept, because the plan and the options say it: plan, options, film_params for the rest, areas, room. Not kept, because nothing
/// of it is read by the next step: what the run has cost, the scratch of fibre, pigment and steps in parts; `landed`, `after_the_hand`,
/// `deepest_touched`, `touched`, `coming` and its wave, since a moment lies between two steps. Not kept, because they are no part of what happens: where to stop and to halt.
template <class A, class Self> void Rehearsal::archive(A& a, Self& self) {
    auto& [plan, options, sheet, record, ledger, cost, film_params, film, air, fibre, pigment, step_size, steps, areas,
           stages_now, room, next_sample_s, next_check_s, next_frame_s, stages_at_s, slow_s, since_wake, over, frame_due,
           must_wake, stop_after, halt_before, halted, after_the_hand, landed, deepest_touched, touched, coming, coming_wave_m_s, brisk] = self;
    a(film_params.air_stress_x_Pa, film_params.air_stress_y_Pa); // of a dryer that is at work
    a(sheet, record, ledger, film, air, step_size, steps, stages_now, next_sample_s, next_check_s, next_frame_s, stages_at_s,
      slow_s, since_wake, over, frame_due, must_wake);
}

void Rehearsal::keep(grid::ArchiveWriter& a) const { archive(a, *this); }

void Rehearsal::go_on_from(grid::ArchiveReader& a) {
    const auto& g = sheet_.geometry;
    a.most_cells(4ll * (g.px + 64) * (g.py + 64)); // vapour's coarse grid has a wide margin
    archive(a, *this);
    a.finish();
    // A sum that is right says nothing of who made the file: what is used as an index is looked at.
    const auto fits = [&](const auto& f) { a.require(f.nx() == g.nx && f.ny() == g.ny); };
    const std::size_t pigments = sheet_.pigments.size();
    for (const auto& act : record_.acts) {
        a.require(act.step >= 0 && act.step < static_cast<int>(plan_.steps.size()));
        a.require(act.pigment_kg.size() == pigments && act.pigment_lifted_kg.size() == pigments);
        fits(act.cells);
    }
    a.require(ledger_.pigment_laid_kg.size() == pigments && ledger_.pigment_lifted_kg.size() == pigments);
    for (const auto& line : record_.ledger) a.require(line.pigment_on_sheet_kg.size() == pigments);
    a.require(steps_.size() == plan_.steps.size() && (stages_now_.empty() || stages_now_.size() == areas_.size() + 1));
    a.require(!air_.ready || (air_.sideways.factor.nx() == g.px && air_.sideways.factor.ny() == g.py));
    for (const StepState& s : steps_) {
        const hand::Work& w = s.work;
        a.require(s.act < static_cast<int>(record_.acts.size()) && (!s.begun || s.act >= 0));
        a.require(w.mix < static_cast<int>(plan_.mixes.size()) && w.next <= w.touches.size());
        a.require(std::all_of(w.touches.begin(), w.touches.end(), [&](const hand::Touch& t) {
            return sheet_.inside(t.i, t.j) && t.does <= hand::Does::uncover;
        }));
        if (w.back_kg_m2 > 0) fits(w.back_share);
        if (w.joins.nx() > 0) fits(w.joins);
    }
}

std::vector<std::uint8_t> kept_bytes(const Rehearsal& run, const std::filesystem::path& plan_file) {
    grid::ArchiveWriter a(kept_kind);
    Options options = run.options();
    options.until_s = 0;
    const grid::ArchiveDigest digest = plan::digest(run.plan());
    const double time_s = run.time_s();
    a(plan_file, digest, options, time_s);
    run.keep(a);
    return a.bytes();
}

std::string kept_name(double time_s) {
    const auto ms = static_cast<long long>(std::ceil(time_s * 1000 - 1e-6));
    return fmt::format("kept/{:04}m{:02}.{:03}s{}", ms / 60000, ms / 1000 % 60, ms % 1000, extension);
}

std::filesystem::path last_kept(const std::filesystem::path& results, double time_s) {
    const std::filesystem::path folder = results / "kept";
    std::error_code error;
    std::filesystem::path best;
    long long best_ms = -1, first_ms = -1;
    for (std::filesystem::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
        const long long ms = milliseconds(it->path().filename().string());
        if (ms < 0) continue;
        first_ms = first_ms < 0 ? ms : std::min(first_ms, ms);
        if (static_cast<double>(ms) <= time_s * 1000 + 1e-3 && ms > best_ms) best_ms = ms, best = it->path();
    }
    if (first_ms < 0) throw grid::BadInput(folder.string(), "no moment is kept here", "a folder made by tidemark rehearse --keep");
    if (best_ms < 0)
        throw grid::BadInput(folder.string(), fmt::format("nothing is kept as early as {}", grid::clock_text(time_s)),
                             fmt::format("from {} on", grid::clock_text(static_cast<double>(first_ms) / 1000)));
    return best;
}

void remove_kept_but(const std::filesystem::path& results, const std::set<std::string>& names) {
    std::error_code error;
    std::vector<std::filesystem::path> older;
    for (std::filesystem::directory_iterator it(results / "kept", error), end; !error && it != end; it.increment(error)) {
        const std::string name = it->path().filename().string();
        if (milliseconds(name) >= 0 && names.count("kept/" + name) == 0) older.push_back(it->path());
    }
    for (const auto& file : older) std::filesystem::remove(file, error);
}

KeptMoment::KeptMoment(const std::filesystem::path& file) : file_(file), in_(kept_kind, file, a_moment) {
    in_(plan_file_, plan_, options_, time_s_);
    in_.require(std::isfinite(time_s_) && time_s_ >= 0 && options_.cell_m >= 0.09e-3 && options_.cell_m <= 5e-3);
}

Rehearsal KeptMoment::go_on(const plan::Plan& plan, double until_s) {
    if (!plan::digest(plan).same_as(plan_))
        throw grid::BadInput(plan.file.string(),
                             fmt::format("the plan, a mask or a row of the tables is not as it was when {} was kept",
                                         file_.string()),
                             "the same plan, or a new tidemark rehearse --keep");
    if (time_s_ > until_s + 1e-9)
        throw grid::BadInput(file_.string(), fmt::format("was kept at {}", grid::clock_text(time_s_)),
                             fmt::format("a moment at or before {}", grid::clock_text(until_s)));
    Options options = options_;
    options.until_s = until_s;
    Rehearsal run(plan, options);
    run.go_on_from(in_);
    in_.require(run.time_s() == time_s_);
    return run;
}

} // namespace tidemark::rehearsal
