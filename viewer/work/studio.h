/// One plan on the table: its document, and the runs that show it, coarse first and then true.
///
///   Studio studio(presets, {.news = wake_the_window});
///   studio.open(file);
///   each frame: studio.update();  studio.shown(), studio.before() ...
///
/// After every change of the document a draft on coarse cells is played, from where the change matters, then the true
/// cells, each in the background. The plan as it was last kept has its own runs: `before`. Nothing here waits.
#pragma once
#include "viewer/work/document.h"
#include "viewer/work/edge_list.h"
#include "viewer/work/run.h"

#include <filesystem>
#include <functional>
#include <memory>

namespace tidemark::viewer {

/// Cells of a draft: so many that a sheet of the usual size takes a second or two (measured, README).
double draft_cell_m(const plan::Plan&);

struct StudioOptions {
    double cell_m = 0;           ///< of the true run; 0: 0.5 mm, coarser on very large sheets
    bool only_draft = false;
    std::size_t reel_bytes = usual_reel_bytes;
    std::function<void()> news{};
};

class Studio {
  public:
    Studio(const materials::Presets&, StudioOptions); ///< Presets outlive it
    ~Studio();

    void open(const std::filesystem::path& plan_file); ///< Errors: BadInput, when there is no such file; a broken plan opens with problems
    void open(Document);
    bool is_open() const;
    Document& document();
    const Document& document() const;

    void update(); ///< begins and drops runs as the document asks for; returns at once

    std::shared_ptr<Run> draft() const;  ///< of the document as it is; none: it can't be read
    std::shared_ptr<Run> truth() const;  ///< none: not begun yet
    /// The one to look at: the true one once it has come to `time_s`, else the draft.
    std::shared_ptr<Run> shown(double time_s) const;

    // What if: the document against what was last kept.
    bool what_if() const;                 ///< they differ
    std::shared_ptr<Run> before(double time_s) const; ///< of what was last kept; the same as shown() without a difference
    void keep();                          ///< the document as it is
    void drop();                          ///< back to what was kept; undoable

    void set_cell(double cell_m);         ///< of the true run
    double cell_m() const;
    void stop();                          ///< all runs

  private:
    struct Inside;
    std::unique_ptr<Inside> in_;
};

} // namespace tidemark::viewer
