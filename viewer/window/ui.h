/// What every page draws with: letters, colours, and the few things that can be pressed.
///
/// Pages place everything themselves, in pixels; `em` is the size of running text, and the measure of all else. A thing
/// that can be pressed has a name, unique on its page; the Tab key goes from one to the next in the order drawn, Enter
/// presses, arrows up and down turn a slider or walk a list. All between ImGui::NewFrame and ImGui::Render.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "viewer/window/controls.h"
#include "viewer/window/theme.h"

struct ImFont;
struct ImDrawList;

namespace tidemark::viewer {

struct Ui {
    Theme theme;
    float em = 16; ///< pixels
    ImFont *body = nullptr, *strong = nullptr, *title = nullptr, *small = nullptr;
    Controls controls;
    std::string focus;     ///< the name that the keyboard is at; empty: nowhere
    bool enter = false;    ///< Enter was pressed since the frame before
    int nudge = 0;         ///< presses of up (positive) and down since then, big steps count ten
    bool lifted = false;   ///< nothing else can be pressed: something lies on top
    bool in_column = false; ///< what is out of sight can be brought into it
    std::optional<Rect> focus_at{}; ///< where the keyboard is, in sight or not
    ImDrawList* paint = nullptr;
};

struct Press {
    bool hovered = false, held = false, focused = false;
    bool pressed = false; ///< clicked, or Enter on it
};

/// Letters for this size of text: rebuilds ImGui's atlas (give it to the joint afterwards).
void load_letters(Ui&, float em);

void fill(Ui&, const Rect&, Colour);
void frame(Ui&, const Rect&, Colour, float thick = 1); ///< a border inside
float text_width(const Ui&, std::string_view, const ImFont* = nullptr);
float text_height(const Ui&, const ImFont* = nullptr); ///< of a line
/// `font`: body when none. Returns where the text ends.
float write(Ui&, float x, float y, Colour, std::string_view, const ImFont* = nullptr);
void write_right(Ui&, float x_end, float y, Colour, std::string_view, const ImFont* = nullptr);
/// Cut with an ellipsis at `width`.
std::string cut_to(const Ui&, std::string_view, float width, const ImFont* = nullptr);
float write_within(Ui&, float x, float y, float width, Colour, std::string_view, const ImFont* = nullptr);
/// Broken into lines; returns the height.
float write_wrapped(Ui&, float x, float y, float width, Colour, std::string_view, const ImFont* = nullptr);
float wrapped_height(const Ui&, float width, std::string_view, const ImFont* = nullptr);

Press press(Ui&, const std::string& name, const Rect&, bool in_ring = true);
void focus_ring(Ui&, const Rect&);

/// A word that can be pressed: underlined when it is what is shown. `hint`: the key, in the second ink behind it.
/// Moves x behind it.
bool word(Ui&, const std::string& label, float& x, float y, bool on = false, const char* hint = nullptr,
          const std::string& name = {});
/// A button with a border; `strong`: the one to press. Moves x behind it.
bool button(Ui&, const std::string& label, float& x, float y, bool strong = false, const std::string& name = {});
/// Label at the left, `shown` at the right, below them a thin rule with a knob. Returns whether the value changed;
/// `done` tells when the hand let go (or at each turn by a key).
bool slider(Ui&, const std::string& label, const std::string& shown, float x, float y, float width, double& value,
            double lowest, double highest, double step, bool& done);
float slider_height(const Ui&);
/// Words side by side, in as many lines as they need, one of them on. The one that was pressed, else -1; y moves below them.
/// Their names: "OF: label".
int choose_word(Ui&, const std::string& of, const std::vector<std::string>& labels, int on, float x, float& y, float width);
/// One line to type in; all of it is selected when the hand or the keyboard comes to it. Returns true on Enter.
bool field(Ui&, const std::string& name, std::string& text, float x, float y, float width);

} // namespace tidemark::viewer
