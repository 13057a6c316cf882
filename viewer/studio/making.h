/// Making a plan from a picture, without an editor: its masses chosen, merged, split, their edges brushed; then a folder
/// with the plan.
///
/// Brushing makes masses of what hangs together in a group: a split within one has to be made again after it; names stay.
///
/// Squinting takes a moment and is done in the background: found() is the last result, busy() says that a newer one is on
/// its way. Undo and redo without limit.
#pragma once
#include "reference/picture_masses.h"
#include "viewer/studio/looks.h"
#include "viewer/studio/own_plan.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace tidemark::viewer {

class Making {
  public:
    Making(const std::filesystem::path& picture, std::function<void()> news = {}); ///< Errors: BadInput (no picture)
    ~Making();
    const std::filesystem::path& picture_file() const;

    std::shared_ptr<const reference::PictureMasses> found() const; ///< none: not yet
    bool busy() const;
    std::string problem() const;             ///< of the last change; empty: none
    int groups() const;
    void set_groups(int);                    ///< 2 to 7
    void set_simplify(double mm);
    int mass_at(double x_mm, double y_mm) const; ///< its number; 0: none
    void merge(int a, int b);
    void push(int mass, int by);             ///< groups, + lighter
    /// Along the straight line through both points, which are taken to the sheet's border when they lie beyond it.
    void split(int mass, double x1_mm, double y1_mm, double x2_mm, double y2_mm);
    void name(int mass, const std::string&); ///< letters, digits, - and _
    /// What lies within radius_mm of the stroke becomes of the mass's group.
    void brush(int mass, const std::vector<reference::Point>& stroke, double radius_mm);
    void lasso(int mass, const std::vector<reference::Point>& outline);
    bool can_undo() const, can_redo() const;
    void undo(), redo();

    Pixels pixels() const;                   ///< the masses in their groups' greys, outlined; empty: not yet

    /// Acts of the painter's own, in the place of those that would be drafted. Made in the background, then acts() for the
    /// window's thread alone, but while writing().
    void begin_acts(const materials::Presets&); ///< Presets outlive it
    std::shared_ptr<OwnPlan> acts() const;   ///< none: not begun, or not yet

    /// Writes a plan folder, in the background. Progress 0 ... 1; then the plan's file, or what went wrong.
    void write_plan(const std::filesystem::path& folder); ///< drafted
    void write_acts(const std::filesystem::path& folder); ///< of acts()
    double writing() const;                  ///< below 0: not writing
    std::filesystem::path written() const;   ///< plan.toml; empty: not yet

  private:
    struct Inside;
    std::shared_ptr<Inside> in_;
};

} // namespace tidemark::viewer
