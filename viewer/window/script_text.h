/// The text of a script (script.h), before anything is done: its lines, each a known word and the rest, and ${NAME} filled in.
#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace tidemark::viewer {

struct ScriptLine {
    int number = 0;
    std::string verb, rest;
};

class ScriptText {
  public:
    explicit ScriptText(const std::filesystem::path& file); ///< Errors: BadInput with file and line
    const std::vector<ScriptLine>& lines() const { return lines_; }
    std::string where(const ScriptLine&) const; ///< "look.txt:7"
    /// The rest of a line with each ${NAME} replaced by what was remembered, else by the environment's. What comes in is not
    /// looked through again. Errors: BadInput.
    std::string filled(const ScriptLine&, const std::map<std::string, std::string>& remembered) const;
    [[noreturn]] void refuse(const ScriptLine&, const std::string& what, const std::string& allowed = {}) const;

  private:
    std::filesystem::path file_;
    std::vector<ScriptLine> lines_;
};

/// KEY of a window's state may be several words: the longest that it has; the rest is the value. Empty: none.
std::pair<std::string, std::string> key_value(const std::map<std::string, std::string>& state, const std::string& text);

/// The last `n` words as numbers, from -1e6 to 1e6, taken off `text`; none when one is not.
std::vector<double> numbers_at_end(std::string& text, int n);

} // namespace tidemark::viewer
