#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "cli/commands.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "reference/draft.h"

namespace tidemark::cli {

bool draft_picture(const DraftOptions& o) {
    keep_picture(o.picture, o.out, {"reference.png"});
    const auto older = std::filesystem::path(o.out) / "plan.toml";
    std::error_code unreadable; // then the folder can't be written either, and says so itself
    if (!o.replace && std::filesystem::exists(std::filesystem::symlink_status(older, unreadable)))
        throw grid::BadInput(older.string(), "a plan is here already",
                             "another folder, or --replace to write over it");
    grid::OutputFolder out(o.out);
    const std::string note = reference::write_draft(o.picture, out);
    out.commit();
    if (!note.empty()) std::fputs(fmt::format("{}: {}\n", o.picture, note).c_str(), stderr);
    const std::string plan = (out.folder() / "plan.toml").string();
    std::fputs(
        fmt::format("A first plan is in {0}. Read it, change it, then:\n  tidemark rehearse {0} --out FOLDER\n", plan)
            .c_str(),
        stdout);
    return true;
}

} // namespace tidemark::cli
