/// A hand that follows a script: what a painter would do in the window, one line each, with what is to be seen of it.
///
///   open PATH [REFERENCE]           size W H                        # of the window, pixels
///   key d | key ctrl+s              type some words                 # as from a keyboard
///   click NAME                      point X_MM Y_MM                 # a control by its name; the pointer onto the sheet
///   press                                                           # where the pointer is
///   drag NAME DX DY                 drag-minutes NAME M             # pixels; along the minute line
///   turn NAME SHARE                 wheel N                         # a slider to a share of its length; at the pointer
///   wait SECONDS                    wait-for SECONDS KEY VALUE      # of state(); at most so long
///   expect KEY VALUE                expect-not KEY VALUE            # "expect control NAME": it can be pressed now
///   remember WORD KEY               print KEY | print all           # ${WORD} in later lines is what it was
///   screenshot FILE.png             # and comments
///
/// ${NAME} is what was remembered, else the environment's. A line that can't be followed (a control that is not there, an
/// unknown word) or an expectation that fails ends the script: BadInput, NotAsExpected. All goes through SDL's events.
#pragma once
#include <filesystem>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "viewer/window/app.h"
#include "viewer/window/script_text.h"

namespace tidemark::viewer {

struct NotAsExpected : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// What frames took, for those who measure: events obeyed, frame() and present() together.
struct FrameTimes {
    std::vector<double> ms;     ///< by the clock
    std::vector<double> own_ms; ///< of a processor: without what else the machine was busy with
    std::vector<int> lines;     ///< of the script
};
double median(std::vector<double>); ///< 0 when there was none
double worst(const std::vector<double>&);

class Script {
  public:
    explicit Script(const std::filesystem::path& file) : text_(file) {} ///< Errors: BadInput with file and line
    FrameTimes run(App&);

  private:
    using Line = ScriptLine;
    ScriptText text_;
    std::map<std::string, std::string> remembered_;
    FrameTimes times_;
    int line_ = 0;
    int pointer_x_ = 0, pointer_y_ = 0;

    void follow(App&, const Line&, std::string rest);
    [[noreturn]] void refuse(const Line& line, const std::string& what, const std::string& allowed = {}) const {
        text_.refuse(line, what, allowed);
    }
    void frames(App&, int n);
    void push(App&, SDL_Event);
    void move_to(App&, float x, float y);
    void button(App&, bool down);
    void key(App&, const Line&, const std::string& text);
    Rect control(App&, const Line&, const std::string& name); ///< brought into sight by the Tab key when it is scrolled out of it
    void drag(App&, const Rect&, float dx, float dy);
    bool holds(App&, const std::string& key, const std::string& value) const;
};

} // namespace tidemark::viewer
