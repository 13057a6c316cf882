/// The page on which a plan is rehearsed: the sheet on its mat, a line of words above it, what there is to read at its
/// right, the minute line at its foot.
///
/// A Desk holds what the painter has chosen; desk_*.cpp draw its parts and take what the hand does to them. The studio
/// below it plays the plan in the background; nothing here waits for it.
#pragma once
#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "materials/cautions.h"
#include "viewer/window/act_form.h"
#include "viewer/window/canvas.h"
#include "viewer/window/column.h"
#include "viewer/window/commands.h"
#include "viewer/window/foretold.h"
#include "viewer/window/mark.h"
#include "viewer/window/patterns.h"
#include "viewer/window/sheet_view.h"
#include "viewer/window/strip.h"
#include "viewer/window/ui.h"
#include "viewer/studio/edge_list.h"
#include "viewer/studio/glass.h"
#include "viewer/studio/looks.h"
#include "viewer/studio/sheet_saving.h"
#include "viewer/studio/studio.h"

namespace tidemark::viewer {

enum class Compare { alone, beside, curtain, difference };
const char* word_of(Compare);

/// One look at one moment, unpacked once.
struct Held {
    std::shared_ptr<const Run> run;
    double time_s = -1;
    LookKind look = LookKind::dried;
    bool reference = false;
    std::shared_ptr<const Run> less; ///< a difference: what was taken from it, none: the reference
    double less_s = -1;
    Pixels pixels;
    int edition = 0; ///< another for every other content
};

/// What the mat was drawn from: drawn again when any of it differs.
struct MatKey {
    Rect area{}, pane{};
    double px_per_mm = 0, middle_x = 0, middle_y = 0;
    int sheet = 0, other = 0, edges = 0, chosen = -1, lit = -1;
    float curtain = 0;
    Compare compare = Compare::alone;
    bool operator==(const MatKey&) const;
};

Pen pen_of(const std::string& edge_word, float thin); ///< each word its own line
std::string width_text(double mm);                    ///< of an edge

class Desk {
  public:
    Desk(const materials::Presets&, StudioOptions);

    void open(const std::filesystem::path& plan); ///< read in the background
    void open(Document);
    bool is_open() const { return open_ && studio.is_open() && !studio.opening(); } ///< false while it is being read, too
    bool opening() const { return open_ && studio.opening(); }
    void close();                  ///< the plan; what was not saved is gone
    void update(double dt_s);      ///< each frame before it is drawn
    bool obey(Do);                 ///< false: not the desk's
    void draw(Ui&, SDL_Renderer*, const Rect& all);
    bool moving() const { return playing || studio.reading_again(); } ///< needs frames by itself
    std::map<std::string, std::string> state() const;

    // What is chosen.
    Studio studio;
    SheetView view;
    LookKind look = LookKind::dried;
    Compare compare = Compare::alone;
    bool with_before = false;      ///< compared with the sheet before the change, not with the reference
    bool edges_shown = false, glass_on = true;
    float curtain = 0.5F;          ///< of the mat's width
    double minute_s = 0;           ///< the one that is shown
    double wanted_s = 0;           ///< the one that was asked for: shown as soon as it is painted
    bool following = true;         ///< the minute goes with the newest that is painted
    bool playing = false;
    int pace = 10;                 ///< times life
    int act = -1;                  ///< chosen step; -1: none
    int edge = -1;                 ///< chosen row of the list
    std::string note;              ///< the last thing to tell, until the next
    bool note_is_wrong = false;
    double screen_px_mm = 96 / 25.4;
    enum class Slip { none, save_as, leaving, sheet, adding } slip = Slip::none;
    Mark mark;
    bool others_listed = false;    ///< edges that nobody asked about
    std::string save_name;
    bool wants_to_leave = false;   ///< to the first page
    bool wants_to_close = false;   ///< and then the window
    bool left = false;             ///< it may: saved, or not to be saved
    std::optional<std::filesystem::path> saved_as; ///< for the recent plans
    std::vector<std::string> paper_ids, room_ids; ///< that can be chosen
    std::vector<materials::Caution> cautions;     ///< of the presets
    std::optional<Do> asks_for;    ///< of the window: a word of it was pressed

    void say(const std::string&, bool wrong = false);
    std::string own_file() const { return is_open() ? studio.document().file().string() : std::string(); }
    bool ask_to_leave();           ///< true: nothing would be lost
    void choose_act(int step);
    void choose_edge(int k);
    void add_act();                ///< opens the slip, behind the chosen act or the last
    void save_sheet();             ///< of the finished run, in the background
    bool press_mark();             ///< as a click there would; false: there is no mark
    void go_to(double s);
    void step_act(int by);
    void move_act(int step, double to_s);
    const Strip& strip() const { return strip_; }
    std::shared_ptr<Run> run() const { return studio.shown(minute_s); }
    std::shared_ptr<Run> seen() const; ///< the one that is looked at: against the sheet before, in cells that both have

  private:
    /// What the strip was gathered from: again when it is another, not for every step of a run.
    struct Gathered {
        const void *plan = nullptr, *coarse = nullptr, *fine = nullptr;
        bool coarse_over = false, fine_over = false;
        bool operator==(const Gathered&) const = default;
    } gathered_;
    double since_gathered_s_ = 0;
    std::size_t places_ = 0; ///< that the acts of the plan come to: rows of the minute line
    Foretold foretold_;
    ActForm form_;
    SheetSaving saving_;
    std::vector<materials::Brush> brushes_;
    std::function<void()> news_;
    bool open_ = false;
    Strip strip_;
    std::vector<EdgeLine> edges_;
    std::shared_ptr<const Outcome> edges_of_;
    int edges_edition_ = 0;
    ReferenceMaking::Values reference_; ///< none, too, while it is being made
    std::shared_ptr<const plan::Plan> plan_;
    Held sheet_, other_;
    int editions_ = 0;
    Canvas canvas_;
    Shown mat_;
    MatKey mat_key_, lines_key_;
    Canvas lines_;                 ///< edges alone: drawn again only when they or the view change
    Patterns patterns_;
    Rect mat_area_, margin_, line_;
    float list_scroll_ = 0, rows_scroll_ = 0;
    Scroll slip_scroll_;
    std::optional<Spot_mm> pointer_;
    Rect whole_{};                 ///< the word that leads back to the whole sheet; empty: all of it is seen
    bool whole_hovered_ = false;
    int lit_ = -1;                 ///< edge whose row the pointer is over
    std::optional<UnderGlass> glass_;
    struct {
        std::shared_ptr<const Run> run;
        double time_s = -1;
        std::optional<Moment> moment;
    } through_glass_;              ///< unpacked once for all places of a moment
    // What the hand is at.
    bool panning_ = false, scrubbing_ = false;
    int dragged_ = -1;             ///< act being dragged
    double drag_to_s_ = 0, drag_hold_s_ = 0;
    std::map<std::string, double> turning_; ///< sliders in the hand

    void opened();
    void gather_strip(double dt_s);
    void hold(Held&, std::shared_ptr<const Run>, LookKind, bool reference);
    void look_through_glass(const std::shared_ptr<const Run>&);
    void hold_difference(std::shared_ptr<const Run> after, std::shared_ptr<const Run> before);
    bool has_reference() const { return plan_ && plan_->reference; }
    bool against_before() const { return with_before && studio.what_if(); }
    std::size_t edges_listed() const;
    void choose_place(Spot_mm);    ///< of the act on the slip
    /// A word of the line at the head; without `what` it opens the slip of the sheet.
    struct TopWord {
        std::string label, name;
        std::optional<Do> what;
        bool on = false, gap = false; ///< gap: a little room before it
    };
    std::vector<TopWord> top_words() const;
    std::string name_shown() const; ///< of the plan
    int lines_of(const Ui&, const std::vector<TopWord>&, float width) const;
    void draw_top(Ui&, const Rect&, const std::vector<TopWord>&);
    void draw_mat(Ui&, SDL_Renderer*, const Rect&);
    void compose_mat(const Ui&, SDL_Renderer*, const MatKey&, const Rect& second);
    void draw_edges(const Ui&, const Rect& pane);
    void draw_legend(Ui&, const Rect&);
    void touch_mat(Ui&, const Rect& pane, const Rect& second);
    void draw_margin(Ui&, const Rect&);
    float draw_state(Ui&, float x, float y, float width);
    void draw_glass(Ui&, const Rect& mat);
    void draw_list(Ui&, const Rect&);
    bool draw_edge_row(Ui&, std::size_t k, const Rect& row); ///< pressed
    void draw_fold(Ui&, const std::optional<Rect>& row);
    std::string edge_name(std::size_t k) const;
    void draw_act_slip(Ui&, const Rect&);
    void draw_sheet_slip(Ui&, const Rect&);
    void draw_adding(Ui&, const Rect&);
    void draw_question(Ui&, const Rect&);
    void draw_problems(Ui&, const Rect&);
    void draw_line(Ui&, SDL_Renderer*, const Rect&);
    void draw_row(Ui&, const StripRow&, const Rect& name, const Rect& ribbon, double s_px);
    float draw_change(Ui&, float x, float foot, float width);
    void save();
};

} // namespace tidemark::viewer
