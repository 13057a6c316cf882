#include <fmt/format.h>
#include <omp.h>

#include <csignal>

#include "cli/commands.h"
#include "grid/problem.h"
#include "grid/steady.h"

namespace tidemark::cli {
namespace {

std::sig_atomic_t volatile interrupted = 0;
void on_interrupt(int) { interrupted = 1; }

} // namespace

void begin_run(int threads) {
    if (threads < 0 || threads > 256)
        throw grid::BadInput("--threads", fmt::format("{}", threads), "1 to 256, or 0: one a core");
    grid::have_threads(threads > 0 ? threads : omp_get_num_procs());
    interrupted = 0;
    std::signal(SIGINT, on_interrupt);
    std::signal(SIGTERM, on_interrupt);
}

bool stopped_by_painter() { return interrupted != 0; }

} // namespace tidemark::cli
