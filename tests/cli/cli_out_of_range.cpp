// What no reader stopped and a room refuses ends in one line and an exit code, not in a crash.
#include "cli/commands.h"
#include "sheet/sheet_state.h"

#include <catch2/catch.hpp>
#include <cstdio>
#include <unistd.h>

using namespace tidemark;

namespace {

struct Said {
    int code = 0;
    std::string err;
};

Said guarded(const std::function<bool()>& command) {
    std::FILE* file = std::tmpfile();
    REQUIRE(file != nullptr);
    std::fflush(stderr);
    const int before = dup(STDERR_FILENO);
    dup2(fileno(file), STDERR_FILENO);
    Said said{cli::guarded(command), {}};
    std::fflush(stderr);
    dup2(before, STDERR_FILENO), close(before);
    std::rewind(file);
    for (int c; (c = std::fgetc(file)) != EOF;)
        said.err += static_cast<char>(c);
    std::fclose(file);
    return said;
}

} // namespace

TEST_CASE("a number that a room refuses is one line and exit code 3", "[wrong][cli]") {
    const Said said = guarded([] {
        sheet::SheetState::make(0.1, 0.1, 0, {}, {}, sheet::BoardKind::sealed, {}, 1);
        return true;
    });
    CHECK(said.code == 3);
    CHECK(said.err == "internal error: cell_m is 0 mm; allowed: 0.01 to 100 mm; nothing was written\n");
    CHECK(guarded([] { return true; }).code == 0);
}
