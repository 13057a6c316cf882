/// From a photograph to a plan with the mouse: its masses as squinting finds them, chosen, joined, parted, their edges
/// brushed or drawn round, named; then written as a plan that the desk goes on with.
#pragma once
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/window/canvas.h"
#include "viewer/window/commands.h"
#include "viewer/window/ui.h"
#include "viewer/studio/making.h"

namespace tidemark::viewer {

enum class HandDoes { choose, join, part, brush, draw_round };
const char* word_of(HandDoes);

class MakingPage {
  public:
    void open(const std::filesystem::path& picture, std::function<void()> news); ///< Errors: BadInput
    void close() { making_.reset(), photo_.width = 0; }
    bool is_open() const { return making_ != nullptr; }
    bool obey(Do);
    void draw(Ui&, SDL_Renderer*, const Rect& all);
    std::map<std::string, std::string> state() const;
    void say(const std::string& what, bool wrong = false) { note_ = what, note_is_wrong_ = wrong; }
    bool moving() const { return making_ && (making_->writing() >= 0 || making_->busy()); }

    SheetView view;
    int mass = 0; ///< chosen, by its number; 0: none
    HandDoes hand = HandDoes::choose;
    bool wants_to_leave = false;
    std::optional<std::filesystem::path> goes_on; ///< the plan that was written

  private:
    std::unique_ptr<Making> making_;
    std::shared_ptr<const reference::PictureMasses> found_;
    Pixels masses_, photo_;
    bool photo_shown_ = false;
    int edition_ = 0, outlined_ = -1;
    double brush_mm_ = 4, simplify_mm_ = 1.5, turning_mm_ = 0;
    std::string name_, folder_, note_;
    bool note_is_wrong_ = false, written_ = false;
    std::vector<reference::Point> stroke_; ///< of the hand, in mm, while it is down
    Canvas canvas_;
    Shown shown_;
    struct Key {
        float w = 0, h = 0;
        double zoom = 0, x = 0, y = 0;
        int edition = 0, mass = 0;
        bool photo = false;
        bool operator==(const Key&) const = default;
    } drawn_;
    void take_found();
    void choose(int number);
    void touch(Ui&, const Rect&);
    void let_go();
    void draw_mat(Ui&, SDL_Renderer*, const Rect&);
    void draw_margin(Ui&, const Rect&);
    float draw_chosen(Ui&, float x, float y, float width);
    int index_of(int number) const; ///< into the masses' list; -1
};

} // namespace tidemark::viewer
