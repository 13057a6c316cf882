/// In class: the sheet as large as it goes, large type, no numbers but the minute; it pauses at the moments that matter.
///
/// One sheet, or two that play the same minutes with one thing different: a lesson's, or before and after a change. All
/// are rehearsed first or while the class looks on; the minute never runs ahead of what is painted.
#pragma once
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "materials/presets.h"
#include "plan/lesson.h"
#include "viewer/window/canvas.h"
#include "viewer/window/commands.h"
#include "viewer/window/ui.h"
#include "viewer/studio/looks.h"
#include "viewer/studio/run.h"

namespace tidemark::viewer {

struct ClassSheet {
    std::shared_ptr<const Run> run;
    std::string caption;
    int watch = -1; ///< area whose stage is told
};

class Classroom {
  public:
    /// Errors: BadInput when a plan of the lesson can't be read.
    void open(const plan::Lesson&, const materials::Presets&, std::function<void()> news, plan::FilesFrom = plan::FilesFrom::folder);
    void open(std::string title, std::vector<ClassSheet>, std::vector<double> moments_s);
    void close();
    void update(double dt_s);
    bool obey(Do);
    void draw(Ui&, SDL_Renderer*, const Rect&);
    std::map<std::string, std::string> state() const;
    bool moving() const { return playing_ && !waiting_; }
    bool wants_to_leave = false;
    bool from_desk = false;

  private:
    struct Seat {
        ClassSheet sheet;
        SheetView view;
        std::shared_ptr<Run> own; ///< a lesson's run, stopped when the class is over
        double time_s = -1;
        LookKind look = LookKind::now;
        Pixels pixels;
        Canvas canvas;
        Shown shown;
        bool stale = true;
        float drawn_w = 0, drawn_h = 0;
    };
    std::string title_;
    std::vector<Seat> seats_;
    std::vector<double> moments_s_;
    double minute_s_ = 0, pace_ = 60;
    bool playing_ = false, waiting_ = false, at_moment_ = false, dried_ = false;
    std::optional<LookKind> chosen_look_;
    double reached_s() const;
    bool all_done() const;
    LookKind look() const { return chosen_look_ ? *chosen_look_ : dried_ ? LookKind::dried : LookKind::now; }
    void draw_seat(Ui&, SDL_Renderer*, Seat&, const Rect&);
};

} // namespace tidemark::viewer
