/// A plan with some of its values changed, read again by the same reader: all its checks hold, and what is wrong with a
/// value is told as in any plan, with the name of who asked for it in the place of the line.
///
///   Variants plans(file, presets);
///   plans.base()                                                    // as the painter wrote it
///   plans.with({{.step = "hills", .key = "wait", .value = "2:00", .where = "--vary"}})
///
/// The file is never touched. Keys are the plan's own:
///   of a step   any that holds one value. `wait` puts the clock in the place of a stage: a step that waits `when` then
///               begins so long after the step before it is finished, as does one that has no start of its own. `at` takes
///               the place of after, wait and when. `is`, `longest` and `share` are those of a `when`, if the act has no
///               such key itself.
///   of "sheet"  room and paper
///   of "mix.NAME"  a pigment that it has, or gum_pct
/// A value is written as on paper: 2:00, 55, 0.6, damp.
///
/// Errors: BadInput: what read_plan() would say, a step or key that is not there, a key that can't be changed (what a step
/// is, and where).
#pragma once
#include "plan/files_from.h"
#include "plan/plan.h"

#include <memory>
#include <string>
#include <vector>

namespace tidemark::plan {

struct Value;

struct Change {
    std::string step, key, value;
    std::string where; ///< for messages
};

class Variants {
  public:
    Variants(const std::filesystem::path& file, const materials::Presets&, FilesFrom = FilesFrom::folder); ///< Presets outlive it
    const Plan& base() const { return base_; }
    /// A step's name from its beginning, up to the end of a word, when no other name begins so; "sheet" and "mix.NAME" as
    /// they are.
    std::string whole_name(const std::string& step, const std::string& where) const;
    Plan with(const std::vector<Change>&) const;

  private:
    const materials::Presets& presets_;
    FilesFrom from_;
    std::shared_ptr<const Value> document_;
    Plan base_;
};

/// All that a variant can have otherwise than its base: a plan without masks, of which there may be many.
struct Values {
    materials::Paper paper;
    materials::Room room;
    std::vector<Mix> mixes;
    std::vector<Step> steps;
};
Values values_of(Plan);
Plan plan_of(Plan base, const Values&);

bool same_sheet(const Values&, const Values&); ///< paper and room: nothing is common to sheets that differ in them

/// A step that two plans have otherwise.
struct Difference {
    int step = 0;
    bool start = false;
    bool act = false; ///< or the mix that it lays
};
std::vector<Difference> differences(const Values&, const Values&); ///< of variants of one plan

} // namespace tidemark::plan
