/// What each command does. They return true when done, false when the painter stopped it; errors are thrown
/// (grid/problem.h).
#pragma once
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "plan/files_from.h"
#include "plan/plan.h"

namespace tidemark::cli {

struct RehearseOptions {
    std::string plan, out;
    int threads = 0;         ///< 0: one a core
    double cell_mm = 0.5;    ///< 0.1 ... 4
    std::string until, frames, keep; ///< m:ss; empty: none
    bool advise = false;     ///< changes that would mend unmet wishes are tried
    bool quiet = false;
    bool outside = false;    ///< masks and pictures from anywhere (plan/files_from.h)
};
bool rehearse_plan(const RehearseOptions&);

/// The sheet at a moment of a rehearsal that was run with --keep.
struct LookOptions {
    std::string folder, at, out; ///< of the rehearsal; m:ss; the picture
    std::string plan;            ///< where the plan lies now; empty: where it lay
    bool dried = false;          ///< as it will be once dry, not as it looks at that moment
    int threads = 0;
    bool outside = false;
};
bool look_at_moment(const LookOptions&);

/// What if: variants of a plan side by side.
struct AskOptions {
    std::string plan, out;
    std::vector<std::string> vary; ///< STEP.KEY=..., once for each (vary_options.h)
    std::string room, paper;       ///< ids with commas between; empty: as planned
    double cell_mm = 0.5;
    int threads = 0;
    int uncertain = 8;             ///< days, 1 ... 64
    bool uncertain_given = false;
    bool whole = false;            ///< to the end of the painting, not only until what varies is dry
    bool quiet = false;
    bool outside = false;
};
bool ask_plan(const AskOptions&);

struct CheckOptions {
    std::string plan;
    bool outside = false;
};
bool check_plan(const CheckOptions&);

/// What a picture's masses are (masses_options.h).
struct MassesOptions {
    int groups = 3, simplify = 3; ///< 2 ... 7; steps of half a millimetre, 1 ... 10
    bool groups_given = false, simplify_given = false, smallest_given = false; ///< rather than taken as the default
    double smallest_mm2 = 25;
    std::string thresholds, masks, sheet_mm, crop; ///< L*,L*; a folder; WxH; X,Y,WxH in pixels; empty: the best, none, the usual, the middle
    bool keep_thin = false;
    std::vector<std::string> keep_lights;                   ///< X,Y in mm
    std::vector<std::pair<std::string, std::string>> edits; ///< option and its text, in the order given
};

struct DraftOptions {
    std::string picture, out;
    MassesOptions masses;
    bool replace = false; ///< a plan.toml in `out` goes; else it is refused, since a painter may have changed it
};
bool draft_picture(const DraftOptions&);

/// Every pigment of the presets by itself, wet and dry, as a picture and a table.
struct SwatchesOptions {
    std::string out, csv;                   ///< the picture; the table, empty: none
    std::string paper = "cold-pressed-300"; ///< an id
    std::string light = "D65";              ///< or D50
};
bool draw_swatches(const SwatchesOptions&);

/// What is traced onto the paper: the masses of a picture in outline, with squares, eye line and heads.
struct TransferOptions {
    std::string picture, out;       ///< the kind of file by its name's ending
    MassesOptions masses;           ///< with a sheet
    std::string grid, eye_line;     ///< mm; mm or percent; empty: the usual, none
    std::vector<std::string> heads; ///< X,Y in mm
    double standing_m = 1.6;        ///< of the eye over the ground
};
bool draw_transfer(const TransferOptions&);

/// A picture's value masses, and what to paint them from.
struct SquintOptions {
    std::string picture, out;
    MassesOptions masses;
    std::string start; ///< X,Y in mm; empty: a good end
    bool replace = false; ///< masks in `out` that the painter has changed go; else they are refused
    std::string paper = "cold-pressed-300", room = "temperate-studio";
    double pace_cm2_s = 6;
};
bool squint_at(const SquintOptions&);

/// One effect, rehearsed and shown at a few moments (plan/lesson.h).
struct LessonOptions {
    std::string name, out; ///< a folder of presets/lessons
    std::optional<double> cell_mm; ///< none: as the lesson says
    int threads = 0;
    bool quiet = false;
    bool list = false;     ///< says which there are; nothing else is looked at
};
bool play_lesson(const LessonOptions&);

/// Runs a command and says in one line what went wrong. Returns the exit code (run.h).
int guarded(const std::function<bool()>& command);

/// For a loop that a painter may stop with Ctrl-C: sets the threads (0: one a core; errors: BadInput) and listens.
void begin_run(int threads);
bool stopped_by_painter();

inline plan::FilesFrom files_from(bool outside) { return outside ? plan::FilesFrom::anywhere : plan::FilesFrom::folder; }

/// In m. Errors: BadInput naming --cell, when it is out of range or makes too many of them.
double cell_m_from(double cell_mm, const plan::Plan&);

/// The file that an option names. Errors: BadInput naming `where` when it is a folder.
std::filesystem::path output_file(const std::string& text, const std::string& where);
bool same_file(const std::filesystem::path&, const std::filesystem::path&);

/// A picture must not be written over by what is made of it. Errors: BadInput when it is one of `names` in `out`, or lies
/// in its masks/.
void keep_picture(const std::string& picture, const std::string& out, const std::vector<std::string>& names);

/// Of --cell. Errors: BadInput (0.1 to 4 mm; 60 million cells).
double cell_m_from(double cell_mm, const plan::Plan&);

/// "7:40" to seconds, as in a plan but above zero. Errors: BadInput naming `where`.
double seconds_from_clock(const std::string& text, const std::string& where);

} // namespace tidemark::cli
