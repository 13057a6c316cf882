/// One plan on the table: its document, and the runs that show it, coarse first and then true.
///
///   Studio studio(presets, {.news = wake_the_window});
///   studio.open(file);
///   each frame: studio.update();  studio.shown(), studio.before() ...
///
/// After every change of the document a draft on coarse cells is played, from where the change matters, then one on cells of
/// middle_cell_m when they lie between, then the true cells, each in the background. The plan as it was last kept has its own runs: `before`. Nothing here waits.
#pragma once
#include "viewer/studio/document.h"
#include "viewer/studio/edge_list.h"
#include "viewer/studio/reference_making.h"
#include "viewer/studio/run.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <utility>

namespace tidemark::viewer {

/// Cells of a draft: some 6650, 4 mm on a sheet of 380 × 280 mm, where the hour of the orchard takes 3 s (alone on one core;
/// at 3 mm 4.5 s, at 2 mm 11 s). Its words for edges are a draft's: of the orchard's 30 rows that answer a wish, as judged on
/// 1 mm, 15 have the same word on 4 mm and 24 one at most a word off; on 3 mm 22 and 29, on 2 mm 24 and 28.
double draft_cell_m(const plan::Plan&);
constexpr double middle_cell_m = 1.5e-3;

struct StudioOptions {
    double cell_m = 0;           ///< of the true run; 0: 0.5 mm, coarser on very large sheets
    bool only_draft = false;
    double draft_cell_m = 0;     ///< 0: as draft_cell_m() has it
    std::size_t reel_bytes = usual_reel_bytes;
    std::function<void()> news{};
    plan::FilesFrom from = plan::FilesFrom::folder; ///< masks and pictures of the plans that are opened
};

class Studio {
  public:
    Studio(const materials::Presets&, StudioOptions); ///< Presets outlive it
    ~Studio();

    Studio(const Studio&) = delete;
    Studio& operator=(const Studio&) = delete;

    void open(const std::filesystem::path& plan_file); ///< Errors: BadInput, when there is no such file; a broken plan opens with problems
    void open(Document);
    /// The same without waiting: a large plan's masks take half a second to read. update() puts it on the table, in the place of what
    /// lies there until then; when there is nothing to be read it stays, and opening_failed() says why.
    void open_later(const std::filesystem::path& plan_file);
    bool opening() const;
    std::string opening_failed() const;
    /// The plan on the table from its file, without waiting too; then was_read_again() says once what went wrong, empty: nothing.
    void read_again_later();
    bool reading_again() const;
    std::optional<std::string> was_read_again();
    bool is_open() const;
    Document& document();
    const Document& document() const;

    void update(); ///< begins and drops runs as the document asks for; returns at once
    ReferenceMaking::Values reference() const; ///< of the document's plan; none: it has none, or it is not ready yet

    std::shared_ptr<Run> draft() const;  ///< of the document as it is; none: it can't be read
    std::shared_ptr<Run> truth() const;  ///< none: not begun yet
    /// The one to look at: the finest that has come to `time_s`, else the one that has come farthest.
    std::shared_ptr<Run> shown(double time_s) const;
    std::shared_ptr<Run> judged() const; ///< the finest that is finished, for edges; none: none is

    // What if: the document against what was last kept.
    bool what_if() const;                 ///< they differ
    std::shared_ptr<Run> before(double time_s) const; ///< of what was last kept; the same as shown() without a difference
    /// After and before, in the finest cells in which both have come to that minute; when they have none in common, as shown() and before().
    std::pair<std::shared_ptr<Run>, std::shared_ptr<Run>> compared(double time_s) const;
    std::shared_ptr<Run> judged_before() const;
    void keep();                          ///< the document as it is
    void drop();                          ///< back to what was kept; undoable

    void set_cell(double cell_m);         ///< of the true run
    double cell_m() const;
    void stop();                          ///< all runs, until the document changes or set_cell()
    void close();                         ///< stops and forgets the plan
    bool busy() const;                    ///< a run is not over

  private:
    struct Inside;
    std::unique_ptr<Inside> in_;
    void put_on_the_table(Document);
};

} // namespace tidemark::viewer
