// A viewer script: read line by line and its ${NAMES} filled in, or BadInput.
#include <cstdlib>

#include "fuzz/memory_file.h"
#include "grid/problem.h"
#include "viewer/window/script_text.h"

using namespace tidemark;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t n) {
    static const trust::MemoryFile held;
    held.hold(bytes, n);
    try {
        const viewer::ScriptText script(held.path());
        for (const viewer::ScriptLine& line : script.lines())
            try {
                std::string rest = script.filled(line, {{"minute", "7:40"}, {"again", "${minute}"}});
                viewer::key_value({{"page", ""}, {"step sky", ""}}, rest);
                for (const double x : viewer::numbers_at_end(rest, 2))
                    if (!(std::abs(x) < 1e300 || x != 0)) std::abort();
            } catch (const grid::BadInput&) {
            }
    } catch (const grid::BadInput& bad) {
        if (bad.problems().empty()) std::abort();
    }
    return 0;
}
