#include "viewer/studio/studio.h"

#include "plan/digest.h"
#include "viewer/studio/reading_detail.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace tidemark::viewer {

namespace {

constexpr double draft_cells = 6650, finest_draft_m = 1e-3, coarsest_draft_m = 5e-3;
constexpr double much_coarser = 1.6; ///< a run in between is worth while when the cells on either side differ by that
constexpr std::size_t draft_states = 128u << 20, middle_states = 256u << 20, true_states = 512u << 20;

using Runs = std::vector<std::shared_ptr<Run>>; ///< by step of fineness; those not begun are empty

bool is_finished(const std::shared_ptr<Run>& run) { return run && run->progress().is == RunProgress::Is::finished; }

std::shared_ptr<Run> finest_at(const Runs& runs, double time_s) {
    std::shared_ptr<Run> farthest;
    for (auto run = runs.rbegin(); run != runs.rend(); ++run) {
        if (!*run) continue;
        const double last_s = (*run)->reel().last_s();
        if (last_s >= 0 && (is_finished(*run) || last_s >= time_s - 1e-6)) return *run;
        if (!farthest || last_s > farthest->reel().last_s()) farthest = *run;
    }
    return farthest;
}

std::shared_ptr<Run> finest_finished(const Runs& runs) {
    for (auto run = runs.rbegin(); run != runs.rend(); ++run)
        if (is_finished(*run)) return *run;
    return nullptr;
}

void cancel(const Runs& runs) {
    for (const auto& run : runs)
        if (run) run->cancel();
}

} // namespace

double draft_cell_m(const plan::Plan& p) {
    return std::clamp(std::sqrt(p.width_m * p.height_m / draft_cells), finest_draft_m, coarsest_draft_m);
}

struct Studio::Inside {
    std::shared_ptr<const materials::Presets> presets; ///< a copy: what is read on a thread may outlive the window
    StudioOptions options;
    std::optional<Document> document;
    std::string kept_text;
    int runs_of = -1;     ///< revision that `runs` play
    bool resting = false; ///< stopped by hand, until the document changes
    std::string runs_text;
    Runs runs, before;
    std::unique_ptr<Reading> reading, again; ///< a plan that is opened; the one on the table
    std::string failed;
    std::optional<std::string> read_again; ///< what went wrong, empty: nothing
    ReferenceMaking reference;

    Inside(const materials::Presets& p, StudioOptions o) : presets(std::make_shared<const materials::Presets>(p)), options(std::move(o)), reference(options.news) {}

    std::vector<double> cells(const plan::Plan& p) const {
        const double true_m = options.cell_m > 0 ? options.cell_m : 0.5e-3, draft_m = std::max(true_m, options.draft_cell_m > 0 ? options.draft_cell_m : draft_cell_m(p));
        std::vector<double> all{draft_m};
        if (options.only_draft) return all;
        if (middle_cell_m * much_coarser <= draft_m && true_m * much_coarser <= middle_cell_m) all.push_back(middle_cell_m);
        if (true_m < draft_m) all.push_back(true_m);
        return all;
    }
    bool differs() const { return document && document->text() != kept_text; }
    void follow_document();
    void forget_runs_of_other_masks(const std::shared_ptr<const plan::Plan>& now);
    void begin_next();
};

/// The same text may stand for another plan: its masks are files of their own.
void Studio::Inside::forget_runs_of_other_masks(const std::shared_ptr<const plan::Plan>& now) {
    const auto was = document->plan();
    if (!now || !was || plan::digest(*now).same_as(plan::digest(*was))) return;
    cancel(runs);
    if (runs_text == kept_text) before.clear();
    runs.clear(), runs_text.clear();
}

/// A change ends what is being played, unless the text is that of runs which are still there.
void Studio::Inside::follow_document() {
    if (!document || document->revision() == runs_of || !document->problems().empty() || !document->plan()) return;
    runs_of = document->revision();
    resting = false;
    if (document->text() == runs_text && !runs.empty()) return;
    cancel(runs);
    if (runs_text == kept_text) before = runs;
    runs_text = document->text();
    runs = runs_text == kept_text ? before : Runs{};
}

/// The coarsest that is missing, once the one before it has been painted. One at a time: they share the cores.
void Studio::Inside::begin_next() {
    if (resting || !document || !document->plan() || document->text() != runs_text) return;
    const std::vector<double> all = cells(*document->plan());
    runs.resize(std::max(runs.size(), all.size()));
    for (std::size_t k = 0; k < all.size(); ++k) {
        const auto& run = runs[k];
        const bool is_draft = options.only_draft || k + 1 < all.size();
        if (run && run->cell_m() == all[k] && run->draft() == is_draft) {
            const auto is = run->progress().is;
            if (is == RunProgress::Is::waiting || is == RunProgress::Is::painting) return;
            if (is == RunProgress::Is::failed) return; // finer cells would fail too
            if (is != RunProgress::Is::stopped) continue;
        }
        RunOrder order{.plan = document->plan(), .cell_m = all[k], .draft = is_draft, .reel_bytes = options.reel_bytes, .news = options.news};
        order.moment_every_s = k == 0 ? 30 : 15;
        order.checkpoint_bytes = k == 0 ? draft_states : k + 1 < all.size() ? middle_states : true_states;
        for (const Runs* some : {&runs, &before})
            if (k < some->size() && (*some)[k] && (*some)[k]->cell_m() == all[k]) order.earlier.push_back((*some)[k]);
        for (std::size_t j = k; j-- > 0 && !order.like;)
            if (is_finished(runs[j])) order.like = runs[j];
        if (run) run->cancel();
        runs[k] = Run::begin(std::move(order));
        return;
    }
}

Studio::Studio(const materials::Presets& presets, StudioOptions options) : in_(new Inside(presets, std::move(options))) {}
Studio::~Studio() { stop(); }

void Studio::open(const std::filesystem::path& file) { open(Document(file, *in_->presets, in_->options.from)); }

void Studio::open(Document document) {
    close();
    put_on_the_table(std::move(document));
}

void Studio::put_on_the_table(Document document) {
    in_->document.emplace(std::move(document));
    in_->kept_text = in_->document->text();
    update();
}

void Studio::open_later(const std::filesystem::path& file) {
    in_->failed.clear();
    const auto read = [file, presets = in_->presets, from = in_->options.from](WhatWasRead& what) {
        what.document.emplace(file, *presets, from);
        if (const auto plan = what.document->plan()) what.reference = values_of_reference(*plan);
    };
    in_->reading = std::make_unique<Reading>(read, in_->options.news);
}

void Studio::read_again_later() {
    if (!in_->document || in_->again) return;
    const auto read = [again = in_->document->reading_again(), presets = in_->presets](WhatWasRead& what) {
        what.again = again();
        if (what.again->plan) what.reference = values_of_reference(*what.again->plan);
    };
    in_->again = std::make_unique<Reading>(read, in_->options.news);
}
bool Studio::reading_again() const { return in_->again != nullptr; }
std::optional<std::string> Studio::was_read_again() { return std::exchange(in_->read_again, std::nullopt); }

bool Studio::opening() const { return in_->reading != nullptr; }
std::string Studio::opening_failed() const { return in_->failed; }

void Studio::close() {
    stop();
    in_->reading.reset(), in_->again.reset();
    in_->read_again.reset();
    in_->reference.forget();
    in_->document.reset();
    in_->runs.clear(), in_->before.clear();
    in_->runs_of = -1;
    in_->runs_text.clear(), in_->kept_text.clear();
}

bool Studio::is_open() const { return in_->document.has_value(); }
Document& Studio::document() { return in_->document.value(); }
const Document& Studio::document() const { return in_->document.value(); }

void Studio::update() {
    if (auto read = in_->reading ? in_->reading->take() : std::nullopt) {
        in_->reading.reset();
        in_->failed = read->failed;
        if (read->document) {
            close();
            in_->reference.are(read->document->plan(), std::move(read->reference));
            put_on_the_table(std::move(*read->document));
        }
    }
    if (auto read = in_->again ? in_->again->take() : std::nullopt) {
        in_->again.reset();
        if (read->again && in_->document && !in_->document->is_still(*read->again)) {
            read_again_later();
        } else if (read->again && in_->document) {
            in_->read_again = read->failed;
            in_->forget_runs_of_other_masks(read->again->plan);
            if (read->again->plan) in_->reference.are(read->again->plan, std::move(read->reference));
            in_->document->take(std::move(*read->again));
        } else {
            in_->read_again = read->failed;
        }
    }
    in_->reference.of(in_->document ? in_->document->plan() : nullptr);
    in_->follow_document();
    in_->begin_next();
}

ReferenceMaking::Values Studio::reference() const { return in_->reference.values(); }
std::shared_ptr<Run> Studio::draft() const { return in_->runs.empty() ? nullptr : in_->runs.front(); }
std::shared_ptr<Run> Studio::truth() const { return in_->runs.size() < 2 ? nullptr : in_->runs.back(); }
std::shared_ptr<Run> Studio::shown(double time_s) const { return finest_at(in_->runs, time_s); }
std::shared_ptr<Run> Studio::judged() const { return finest_finished(in_->runs); }
bool Studio::what_if() const { return in_->differs(); }
std::shared_ptr<Run> Studio::before(double time_s) const { return finest_at(in_->differs() ? in_->before : in_->runs, time_s); }
std::pair<std::shared_ptr<Run>, std::shared_ptr<Run>> Studio::compared(double time_s) const {
    const auto has_come = [&](const std::shared_ptr<Run>& run) { return run && run->reel().last_s() >= 0 && (is_finished(run) || run->reel().last_s() >= time_s - 1e-6); };
    const Runs& then = in_->differs() ? in_->before : in_->runs;
    for (auto after = in_->runs.rbegin(); after != in_->runs.rend(); ++after)
        for (const auto& before : then)
            if (has_come(*after) && has_come(before) && before->cell_m() == (*after)->cell_m()) return {*after, before};
    return {shown(time_s), before(time_s)};
}
std::shared_ptr<Run> Studio::judged_before() const { return finest_finished(in_->differs() ? in_->before : in_->runs); }

void Studio::keep() {
    if (!in_->document) return;
    in_->kept_text = in_->document->text();
    update();
    if (in_->runs_text == in_->kept_text) in_->before = in_->runs;
}

void Studio::drop() {
    if (!in_->document || !in_->differs()) return;
    in_->document->replace(in_->kept_text, "back to what was kept");
    update();
}

void Studio::set_cell(double cell_m) {
    if (cell_m == in_->options.cell_m) return;
    in_->options.cell_m = cell_m;
    in_->resting = false;
    for (std::size_t k = 1; k < in_->runs.size(); ++k)
        if (in_->runs[k] && in_->runs[k]->cell_m() != cell_m) in_->runs[k]->cancel();
    in_->runs.resize(std::min<std::size_t>(in_->runs.size(), 1));
    update();
}

double Studio::cell_m() const { return in_->options.cell_m > 0 ? in_->options.cell_m : 0.5e-3; }
void Studio::stop() {
    in_->resting = true;
    cancel(in_->runs), cancel(in_->before);
}
bool Studio::busy() const {
    return std::any_of(in_->runs.begin(), in_->runs.end(), [](const auto& run) { return run && !run->progress().over(); });
}

} // namespace tidemark::viewer
