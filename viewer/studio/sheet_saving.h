/// A finished run's sheet and its tables written into a folder, in the background: what `tidemark rehearse` leaves there of
/// the same plan and cell, byte for byte, but for report.html.
#pragma once
#include "materials/brush.h"
#include "viewer/studio/run.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace tidemark::viewer {

/// Beside the plan: "sheet" of a plan.toml, "evening-sheet" of an evening.toml.
std::filesystem::path sheet_folder(const std::filesystem::path& plan_file);

void write_sheet(const Outcome&, const std::vector<materials::Brush>&, const std::filesystem::path& folder); ///< Errors: IoError

class SheetSaving {
  public:
    SheetSaving();
    ~SheetSaving(); ///< waits: a file is whole or not there
    void begin(std::shared_ptr<const Outcome>, std::vector<materials::Brush>, const std::filesystem::path& folder, std::function<void()> news);
    bool busy() const;
    struct Done {
        std::filesystem::path folder;
        std::string problem; ///< empty: it is there
    };
    std::optional<Done> take(); ///< once

  private:
    struct Inside;
    std::unique_ptr<Inside> in_;
};

} // namespace tidemark::viewer
