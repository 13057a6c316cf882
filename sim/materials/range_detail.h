/// Checks of one preset's values against what is allowed. Values arrive in the unit of the table's column, so that
/// the message speaks of what the reader of the table sees.
#pragma once
#include "grid/problem.h"

#include <string>
#include <vector>

namespace tidemark::materials {

class Ranges {
  public:
    /// `where`: "papers.csv:7"; `who`: `paper "cold-pressed-300"`.
    Ranges(std::string where, std::string who) : where_(std::move(where)), who_(std::move(who)) {}

    /// A problem unless lo <= value <= hi; a value that is no number is never inside.
    void within(const std::string& column, double value, double lo, double hi);
    void one_of(const std::string& column, const std::string& value, const std::vector<std::string>& allowed);
    void not_empty(const std::string& column, const std::string& value);
    void require(bool holds, const std::string& what, const std::string& allowed);
    std::vector<grid::Problem> problems() && { return std::move(problems_); }

  private:
    std::string where_, who_;
    std::vector<grid::Problem> problems_;
};

} // namespace tidemark::materials
