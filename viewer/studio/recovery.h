/// Copies of what is being edited, once a minute while it differs from its file, so that a crash costs a minute at most.
///
/// A copy is the plan's text in the state folder, with the plan's path in a first comment line. It goes when the plan is
/// saved or closed; what is there at the next start was left by a crash.
#pragma once
#include "viewer/studio/document.h"

#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

namespace tidemark::viewer {

struct Recovered {
    std::filesystem::path copy, plan_file;
    std::string text;
    std::chrono::system_clock::time_point when;
};

class Recovery {
  public:
    explicit Recovery(std::filesystem::path folder);
    void keep_if_due(const Document&);  ///< call it often; never throws
    void keep(const Document&);         ///< now, when something goes wrong; never throws
    void forget(const Document&);       ///< saved, or closed on purpose
    void forget(const Recovered&);
    std::vector<Recovered> left_over() const; ///< newest first; not those of programs that still run

  private:
    std::filesystem::path folder_;
    std::chrono::steady_clock::time_point last_{};
    int revision_ = -1;
};

} // namespace tidemark::viewer
