#include "cli/progress.h"

#include <fmt/format.h>

#include <cstdio>

#include "grid/csv.h"

namespace tidemark::cli {

using clock = std::chrono::steady_clock;

StatusLine::StatusLine(bool on) : on_(on), last_(clock::now()) {}

void StatusLine::show(const std::string& text) {
    const auto now = clock::now();
    if (!on_ || now - last_ < std::chrono::milliseconds(200)) return;
    last_ = now;
    std::fputs(("\r\033[K" + text).c_str(), stderr);
    std::fflush(stderr);
    shown_ = true;
}

void StatusLine::clear() {
    if (shown_) std::fputs("\r\033[K", stderr), std::fflush(stderr);
    shown_ = false;
}

Progress::Progress(const plan::Plan& plan, bool on) : plan_(plan), on_(on), start_(clock::now()), last_(start_) {}

void Progress::show(const rehearsal::Rehearsal& run) {
    const auto now = clock::now();
    if (!on_ || now - last_ < std::chrono::milliseconds(200)) return;
    last_ = now;
    const double spent_s = std::chrono::duration<double>(now - start_).count();
    const double done = run.time_s() / std::max(run.end_guess_s(), 1.0);
    std::string doing = run.sheet().film_tiles.any() ? "water moves" : "drying";
    if (const auto step = run.acting()) doing = plan_.steps[*step].name;
    const std::string left = done > 0.02 ? fmt::format("about {:.0f} s left", spent_s * (1 / done - 1)) : std::string{};
    std::fputs(fmt::format("\r\033[K{:>7}  {}  {}", grid::clock_text(run.time_s()), doing, left).c_str(), stderr);
    std::fflush(stderr);
    shown_ = true;
}

void Progress::clear() {
    if (shown_) std::fputs("\r\033[K", stderr), std::fflush(stderr);
    shown_ = false;
}

} // namespace tidemark::cli
