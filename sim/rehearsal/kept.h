/// Moments of a rehearsal kept in files, so that any later one can be looked at without a new run.
///
///   out.write(kept_name(run.time_s()), kept_bytes(run, digest, plan file));
///
///   KeptMoment moment(file);
///   Rehearsal run = moment.go_on(plan::read_plan(moment.plan_file(), presets), until_s);
///   while (run.step()) {}                      // the sheet is as that of a run with this until_s, to the last bit
///
/// A kept moment lies between two steps, the first one at or after the moment asked for: a run doesn't stop for it, so
/// what is kept changes nothing. A step is cut short by `until_s` only at its end, so all steps before are those of a
/// run without.
///
/// The file is an archive (grid/archive.h) of kind "kept": the plan file's path, the plan's digest (plan/digest.h),
/// Options with until_s 0, time_s, then the members of Rehearsal in the order of Rehearsal::archive (kept.cpp).
#pragma once
#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "plan/digest.h"
#include "rehearsal/rehearsal.h"

namespace tidemark::rehearsal {

/// The version goes up with every change of what is kept, and with every one of what a step does to it.
constexpr grid::ArchiveKind kept_kind{{'k', 'e', 'p', 't'}, 7};

std::vector<std::uint8_t> kept_bytes(const Rehearsal&, const std::filesystem::path& plan_file);

/// "kept/0005m00.000s.moment", rounded up: in the order of time in any listing.
std::string kept_name(double time_s);
/// Of the moments kept in a folder of results, the last one at or before that time. Errors: BadInput when there is none.
std::filesystem::path last_kept(const std::filesystem::path& results, double time_s);

/// Takes away the kept moments of a folder of results that are not among `names`. Those that can't be are left: each
/// stands for itself, and knows its plan.
void remove_kept_but(const std::filesystem::path& results, const std::set<std::string>& names);

class KeptMoment {
  public:
    explicit KeptMoment(const std::filesystem::path&); ///< Errors: BadInput (damaged, foreign, of another version)
    const std::filesystem::path& plan_file() const { return plan_file_; }
    double time_s() const { return time_s_; }
    /// Once. Errors: BadInput when it isn't the same plan, or until_s is earlier.
    Rehearsal go_on(const plan::Plan&, double until_s);

  private:
    std::filesystem::path file_, plan_file_;
    grid::ArchiveReader in_;
    grid::ArchiveDigest plan_;
    Options options_;
    double time_s_ = 0;
};

} // namespace tidemark::rehearsal
