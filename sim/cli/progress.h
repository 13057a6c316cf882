/// One line on a terminal: the simulated minute, what the hand is doing, and the time left.
#pragma once
#include <chrono>
#include <cstddef>
#include <string>
#include <vector>

#include "rehearsal/rehearsal.h"

namespace tidemark::cli {

/// The line itself, at most five times a second.
class StatusLine {
  public:
    explicit StatusLine(bool on);
    void show(const std::string& text);
    void clear();

  private:
    bool on_, shown_ = false;
    std::chrono::steady_clock::time_point last_;
};

class Progress {
  public:
    Progress(const plan::Plan&, bool on);
    void show(const rehearsal::Rehearsal&); ///< at most five times a second
    void clear();

  private:
    const plan::Plan& plan_;
    bool on_, shown_ = false;
    std::chrono::steady_clock::time_point start_, last_;
};

} // namespace tidemark::cli
