/// The built program `tidemark`, run in a folder of its own with the presets of the source tree.
///
///   ProgramRun tidemark;                                  // the folder goes with it
///   const Said said = tidemark("check plan.toml");        // arguments as a shell takes them
///
/// Standard input is empty. `code` is the exit code, or 128 + the signal that ended it.
#pragma once
#include <sys/wait.h>

#include <cstdlib>
#include <sstream>

#include "support/temporary_folder.h"

namespace tidemark::tests {

struct Said {
    int code = -1;
    std::string out, err;
};

class ProgramRun {
  public:
    Said operator()(const std::string& arguments) const {
        const std::string line = "cd '" + folder_.path().string() + "' && TIDEMARK_PRESETS='" TIDEMARK_PRESETS_DIR
                                 "' '" TIDEMARK_PROGRAM "' " + arguments + " </dev/null >.out 2>.err";
        const int status = std::system(line.c_str());
        const int code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
        return {code, bytes(".out"), bytes(".err")};
    }
    /// A file's bytes; empty when it is not there.
    std::string bytes(const std::string& name) const {
        std::ostringstream text;
        text << std::ifstream(folder_.path() / name, std::ios::binary).rdbuf();
        return text.str();
    }
    template <class Bytes> void put(const std::string& name, const Bytes& bytes) const { folder_.put(name, bytes); }
    std::filesystem::path path(const std::string& name) const { return folder_.path() / name; }

  private:
    TemporaryFolder folder_;
};

/// The plan with two pears that lies beside the presets.
inline const std::string two_pears = "'" TIDEMARK_PRESETS_DIR "/plans/two-pears/plan.toml'";

} // namespace tidemark::tests
