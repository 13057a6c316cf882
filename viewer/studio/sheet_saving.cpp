#include "viewer/studio/sheet_saving.h"

#include "grid/files.h"
#include "grid/steady.h"
#include "report/write_outputs.h"

#include <atomic>
#include <omp.h>
#include <thread>

namespace tidemark::viewer {

namespace fs = std::filesystem;

fs::path sheet_folder(const fs::path& plan_file) {
    const std::string stem = plan_file.stem().string();
    return plan_file.parent_path() / (stem == "plan" ? "sheet" : stem + "-sheet");
}

void write_sheet(const Outcome& o, const std::vector<materials::Brush>& brushes, const fs::path& folder) {
    grid::OutputFolder out(folder);
    report::write_judged(*o.plan, o.record, o.verdicts, o.dried, o.geometry, brushes, out);
    out.commit();
}

struct SheetSaving::Inside {
    std::thread thread;
    std::atomic<bool> over{false};
    Done done;
    ~Inside() {
        if (thread.joinable()) thread.join();
    }
};

SheetSaving::SheetSaving() = default;
SheetSaving::~SheetSaving() = default;

void SheetSaving::begin(std::shared_ptr<const Outcome> outcome, std::vector<materials::Brush> brushes, const fs::path& folder, std::function<void()> news) {
    in_ = std::make_unique<Inside>();
    in_->done.folder = folder;
    in_->thread = std::thread([in = in_.get(), outcome = std::move(outcome), brushes = std::move(brushes), news = std::move(news)] {
        try {
            grid::have_threads(omp_get_num_procs());
            write_sheet(*outcome, brushes, in->done.folder);
        } catch (const std::exception& e) {
            in->done.problem = e.what();
        }
        in->over = true;
        if (news) news();
    });
}

bool SheetSaving::busy() const { return in_ && !in_->over; }

std::optional<SheetSaving::Done> SheetSaving::take() {
    if (!in_ || !in_->over) return std::nullopt;
    in_->thread.join();
    const Done done = in_->done;
    in_.reset();
    return done;
}

} // namespace tidemark::viewer
