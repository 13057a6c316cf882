/// From a photograph to a plan with the mouse: its masses as squinting finds them, chosen, joined, parted, their edges
/// brushed or drawn round, named; then written as a plan that the desk goes on with: drafted, or of acts put together here.
#pragma once
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/window/act_form.h"
#include "viewer/window/canvas.h"
#include "viewer/window/column.h"
#include "viewer/window/commands.h"
#include "viewer/window/mark.h"
#include "viewer/window/ui.h"
#include "viewer/studio/making.h"

namespace tidemark::viewer {

enum class HandDoes { choose, join, part, brush, draw_round };
const char* word_of(HandDoes);

class MakingPage {
  public:
    void open(const std::filesystem::path& picture, const materials::Presets&, std::function<void()> news); ///< Presets outlive it. Errors: BadInput
    void close() { making_.reset(), photo_.width = 0; }
    bool move_mark(int dx, int dy); ///< false: there is none
    bool press_mark();              ///< as a click there would; with a brush in the hand, down or up
    bool is_open() const { return making_ != nullptr; }
    bool obey(Do);
    void draw(Ui&, SDL_Renderer*, const Rect& all);
    std::map<std::string, std::string> state() const;
    void say(const std::string& what, bool wrong = false) { note_ = what, note_is_wrong_ = wrong; }
    bool moving() const { return making_ && (making_->writing() >= 0 || making_->busy() || (acting_ && form_->busy())); }

    SheetView view;
    Mark mark;
    std::vector<materials::Caution> cautions; ///< of the presets
    int mass = 0; ///< chosen, by its number; 0: none
    HandDoes hand = HandDoes::choose;
    bool wants_to_leave = false;
    std::optional<std::filesystem::path> goes_on; ///< the plan that was written
    bool drafted = false;                         ///< ... by a draft

  private:
    std::unique_ptr<Making> making_;
    std::shared_ptr<const reference::PictureMasses> found_;
    Pixels masses_, photo_;
    bool photo_shown_ = false;
    int edition_ = 0, outlined_ = -1;
    double brush_mm_ = 4, simplify_mm_ = 1.5, turning_mm_ = 0;
    std::string name_, folder_, note_;
    bool note_is_wrong_ = false, written_ = false;
    std::filesystem::path earlier_; ///< a plan made from this picture before; empty: none
    bool asks_about_acts_ = false; ///< a draft was asked for that would be without them
    // Acts of one's own.
    const materials::Presets* presets_ = nullptr;
    std::unique_ptr<ActForm> form_;
    bool acting_ = false, adding_ = false; ///< the margin shows acts; ... and the slip of a new one
    std::vector<int> acted_;               ///< masses of the act on the slip, by their numbers
    int act_ = -1;                         ///< chosen
    std::shared_ptr<const reference::PictureMasses> followed_; ///< that the acts' areas were drawn by
    Scroll scroll_, acts_scroll_;
    bool mark_draws_ = false;              ///< the mark's brush or pencil is down
    std::vector<reference::Point> stroke_; ///< of the hand, in mm, while it is down
    Canvas canvas_;
    Shown shown_;
    struct Key {
        float w = 0, h = 0;
        double zoom = 0, x = 0, y = 0;
        int edition = 0, mass = 0;
        bool dark = false;
        bool photo = false;
        bool operator==(const Key&) const = default;
    } drawn_;
    void take_found();
    void choose(int number);
    void touch(Ui&, const Rect&);
    void press_at(Spot_mm);
    bool draws() const { return hand == HandDoes::part || hand == HandDoes::brush || hand == HandDoes::draw_round; }
    void let_go();
    std::vector<int> hatched() const; ///< masses, by their index
    void turn_to_acts();
    void begin_act(std::vector<int> masses);
    void take_act_in(int mass);       ///< into the place of the act, or out of it
    void place_act();
    void take_act();
    void draft();
    std::size_t own_acts() const;
    void draw_mat(Ui&, SDL_Renderer*, const Rect&);
    void draw_margin(Ui&, const Rect&);
    float draw_masses(Ui&, float x, float y, float width);
    float draw_chosen(Ui&, float x, float y, float width);
    float draw_acts(Ui&, float x, float y, float width);
    float draw_act_row(Ui&, const plan::Plan&, int step, float x, float y, float width);
    void draw_way_on(Ui&, const Rect&);
    float foot_height(const Ui&, float width) const;
    void draw_note(Ui&, const Rect& mat);
    int index_of(int number) const; ///< into the masses' list; -1
};

} // namespace tidemark::viewer
