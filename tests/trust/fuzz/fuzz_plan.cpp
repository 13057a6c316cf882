// A plan's text, whatever it is: it is read, or there is BadInput with something to say.
#include <cstdlib>
#include <string_view>

#include "grid/files.h"
#include "grid/problem.h"
#include "plan/coverage.h"
#include "plan/digest.h"
#include "plan/read_plan.h"
#include "plan/schedule.h"

using namespace tidemark;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t n) {
    static const auto presets = materials::Presets::read(grid::presets_folder());
    static const std::filesystem::path file = std::filesystem::path(TIDEMARK_TESTS_DIR) / "trust/seeds/plan/plan.toml";
    const std::string_view text(reinterpret_cast<const char*>(bytes), n);
    try {
        const plan::Plan plan = plan::read_plan_text(text, file, presets);
        plan::digest(plan);
        for (int area = 0; area < static_cast<int>(plan.areas.size()); ++area) plan::coverage(plan, area, 8, 8);
        if (!plan::waiting_rings(plan.steps).empty()) std::abort();
    } catch (const grid::BadInput& bad) {
        if (bad.problems().empty() || bad.problems().front().where.empty()) std::abort();
    }
    return 0;
}
