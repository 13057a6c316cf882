/// What a user did wrong, and where: one line each.
///
///   plan.toml:31: step "sky": pace_cm2_s is -2; allowed: 0.5 to 60
///
/// Readers collect every Problem they find and throw one BadInput that holds all of them. It is caught in the
/// programs only (exit code 2, nothing written). IoError is for the world outside (exit code 3); InternalError
/// for a broken promise of our own, such as a ledger that does not close (exit code 3).
#pragma once
#include <stdexcept>
#include <string>
#include <vector>

namespace tidemark::grid {

struct Problem {
    std::string where;   ///< "plan.toml:31", "papers.csv:4", "--cell"; never empty
    std::string what;    ///< "step \"sky\": pace_cm2_s is -2"
    std::string allowed; ///< "0.5 to 60"; may be empty when `what` says it all
    std::string line() const;
};

class BadInput : public std::runtime_error {
  public:
    explicit BadInput(std::vector<Problem> problems);
    BadInput(std::string where, std::string what, std::string allowed = {});
    const std::vector<Problem>& problems() const { return problems_; }

  private:
    std::vector<Problem> problems_;
};

struct IoError : std::runtime_error {
    using std::runtime_error::runtime_error;
};
struct InternalError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// `; did you mean "PB29"?` when one of `names` is close to `wrong` (edit distance), else an empty string.
std::string did_you_mean(const std::string& wrong, const std::vector<std::string>& names);

} // namespace tidemark::grid
