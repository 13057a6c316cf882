#include <fmt/format.h>

#include <cstdio>

#include "cli/commands.h"
#include "grid/files.h"
#include "reference/draft.h"

namespace tidemark::cli {

bool draft_picture(const DraftOptions& o) {
    grid::OutputFolder out(o.out);
    reference::write_draft(o.picture, out);
    out.commit();
    const std::string plan = (out.folder() / "plan.toml").string();
    std::fputs(fmt::format("A first plan is in {0}. Read it, change it, then:\n  tidemark rehearse {0} --out FOLDER\n", plan).c_str(), stdout);
    return true;
}

} // namespace tidemark::cli
