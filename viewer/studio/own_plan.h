/// A plan of a painter's own acts on the masses of a picture, before it has a folder of its own: until then it lies among
/// the temporary files, with the masks of those masses that acts are done in and the reference in the sheet's key.
///
///   OwnPlan own(picture, "hills.jpg", masses, presets);
///   own.add({.act = {.verb = "wash", .area = own.area_of(masses, {2, 3}).name, ...}});
///   own.write("hills-plan");
#pragma once
#include "reference/key.h"
#include "reference/picture_masses.h"
#include "viewer/studio/document.h"
#include "viewer/studio/try_out.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace tidemark::viewer {

class OwnPlan {
  public:
    OwnPlan(const grid::Picture&, const std::string& picture_name, const reference::PictureMasses&, const materials::Presets&); ///< Presets outlive it. Errors: IoError
    ~OwnPlan();
    OwnPlan(const OwnPlan&) = delete;
    OwnPlan& operator=(const OwnPlan&) = delete;

    Ground ground() const;                   ///< what the next act is added to
    int revision() const;                    ///< another number after every change
    const std::vector<grid::Problem>& problems() const;
    double lstar_in_key(double lstar) const; ///< of the picture, as the plan's reference has it

    /// These masses as one area: its mask is written. The same masses give the same area; its name is theirs.
    NewArea area_of(const reference::PictureMasses&, const std::vector<int>& numbers);
    void add(Addition);                      ///< its area only if the plan has it not yet. Errors: BadInput, nothing is changed then
    void take_out(int step);                 ///< Errors: BadInput
    bool can_undo() const, can_redo() const; ///< of the first act and the last one left, too
    void undo(), redo();
    /// Masses that were changed since: an area goes with them, unless less than half of it is still there.
    void follow(const reference::PictureMasses&);

    void write(const std::filesystem::path& folder); ///< Errors: BadInput (no act yet, a plan is there already), IoError

  private:
    struct Drawn {
        std::string name;
        std::vector<int> masses;
        grid::GreyPicture mask;
    };
    const materials::Presets& presets_;
    std::filesystem::path folder_;
    std::string bare_;                   ///< the text without any act
    reference::Key key_;
    std::vector<Drawn> drawn_;
    std::optional<Document> document_;   ///< none: no act
    std::vector<std::string> texts_;     ///< the bare one first; those after the present one can be redone
    std::size_t at_ = 0;
    int revision_ = 0;
    void put_mask(const Drawn&) const;
    void changed();                      ///< document_, by something that can be undone
    void go_to(std::size_t);
};

} // namespace tidemark::viewer
