/// A plan that is being edited: its text is the document. Every change touches the characters of its own value alone, so
/// the painter's comments, order and spacing stay. Undo and redo without limit.
///
///   Document plan(file, presets);
///   plan.move_act(step, 8 * 60, &run_acts);       // its `at`, or the wait after the act that it follows
///   plan.set("sky", "film_um", "120");            // a step, "sheet", "mix.NAME"
///   plan.plan()                                   // read anew by the plan reader, with all its checks
///
/// A change after which the text could not be read is refused and leaves the text as it was, with what is wrong: BadInput.
/// A text that the painter has broken in an editor (reload()) stays, with problems() until it is mended.
#pragma once
#include "grid/problem.h"
#include "materials/presets.h"
#include "plan/files_from.h"
#include "plan/plan.h"
#include "viewer/studio/new_act.h"
#include "viewer/studio/run.h"

#include <array>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace tidemark::viewer {

class Document {
  public:
    Document(std::filesystem::path file, const materials::Presets&, plan::FilesFrom = plan::FilesFrom::folder); ///< Presets outlive it. Errors: BadInput when it can't be read at all
    /// Text that has no file yet, or is newer than its file (recovery). Masks are looked for beside `file`.
    Document(std::filesystem::path file, std::string text, const materials::Presets&, plan::FilesFrom = plan::FilesFrom::folder);
    ~Document();
    Document(Document&&) noexcept;
    Document& operator=(Document&&) noexcept;

    const std::filesystem::path& file() const;
    const std::string& text() const;
    int revision() const;                                  ///< another number after every change, undo and redo
    std::shared_ptr<const plan::Plan> plan() const;        ///< the last that could be read; none: never yet
    const std::vector<grid::Problem>& problems() const;    ///< of the text as it is; empty: plan() is it
    bool changed() const;                                  ///< since it was read or saved

    // Changes. All of them undoable, each by its own name. Errors: BadInput; nothing is changed then.
    void set(const std::string& where, const std::string& key, const std::string& value);
    void set_many(const std::string& label, const std::vector<std::array<std::string, 3>>& where_key_value);
    std::optional<std::string> get(const std::string& where, const std::string& key) const; ///< as written, without quotes
    /// So that the act begins at that minute, where the acts before it were as given. What follows it moves along. A wait
    /// for a stage becomes one by the clock.
    void move_act(int step, double to_s, const std::vector<ActSpan>& played);
    int add_act(const NewAct&, int after_step);            ///< its index; -1: as the first
    int add(const Addition&);                              ///< the same with its mix and its area, in one change
    void remove_act(int step);                             ///< those that waited for it wait for what it waited for
    void add_mix(const std::string& name, const std::vector<std::pair<std::string, double>>& pigment_pct);
    void add_want(const std::string& first, const std::string& second, const std::string& edge);
    void replace(std::string text, const std::string& label);
    bool can_undo() const, can_redo() const;
    std::string undo_label() const, redo_label() const;    ///< "sky: film_um 120"
    void undo(), redo();

    void save();                                           ///< Errors: IoError
    /// Masks and pictures that the plan names are copied to the same places in the new folder, unless the same lie there
    /// already. Gives what was copied. Errors: BadInput when other files lie there, one would not come to lie in the new folder
    /// or below, or the plan has problems; IoError.
    std::vector<std::filesystem::path> save_as(const std::filesystem::path& file);
    bool changed_on_disk() const;                          ///< by another program since it was read or saved
    void reload();                                         ///< undoable
    /// The same in two parts: what takes long on any thread (Errors: BadInput, when it can't be read at all), the rest at once.
    struct Fresh {
        std::filesystem::path file; ///< that was read, and what was known of it when the reading began
        std::string was_on_disk;
        std::string text;
        std::shared_ptr<const plan::Plan> plan; ///< none: it has problems
        std::vector<grid::Problem> problems;
    };
    std::function<Fresh()> reading_again() const;
    bool is_still(const Fresh&) const; ///< nothing was saved meanwhile; otherwise what was read is no longer what is there
    void take(Fresh);

  private:
    struct Inside;
    std::unique_ptr<Inside> in_;
};

} // namespace tidemark::viewer
