/// The problems found in one plan, with their lines; thrown together, in the order of the file.
#pragma once
#include "grid/problem.h"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace tidemark::plan {

class Problems {
  public:
    explicit Problems(std::string file) : file_(std::move(file)) {}
    void add(int line, const std::string& what, const std::string& allowed = {});
    void add(int line, const grid::BadInput&); ///< of a reader that said itself where
    std::string where(int line) const;         ///< "plans/shed.toml:31"; of a line below 0 what it is called
    /// Numbers, from -1 down, for what stands in no line of the file.
    int line_called(const std::string& name);
    bool any() const { return !found_.empty(); }
    void throw_if_any(); ///< BadInput with all of them, at most 100

  private:
    std::string file_;
    std::vector<std::string> called_; ///< lines -1, -2 ...
    std::vector<std::pair<int, grid::Problem>> found_;
};

/// Where the next control character begins (C0, DEL, C1), which a terminal would obey; npos: none.
std::size_t control_at(std::string_view text, std::size_t from = 0);

/// A name or text of the plan, fit for a message: on one line, not too long, in double quotes.
std::string in_quotes(const std::string& text);

/// `; did you mean "sky"?`, or, when no name is near, an allowed-list of all names (`none` when there is none). A
/// name whose beginning was typed ("pace" of "pace_cm2_s", "cold-pressed" of several papers) is nearer than any slip.
struct Hint {
    std::string nearest, allowed;
};
Hint hint(const std::string& wrong, const std::vector<std::string>& names, const std::string& none);

} // namespace tidemark::plan
