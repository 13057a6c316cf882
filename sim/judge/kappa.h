/// How far two sortings of the same things agree beyond chance.
///
///   kappa = 1 - Σ v_ij p_ij / Σ v_ij p_i. p_.j
///
/// p_ij: share that the first sorting puts into i and the second into j; v_ij: what that disagreement counts, 0 on
/// the diagonal. v = 1 off it gives Cohen's kappa (1960, Educ. Psychol. Meas. 20, 37), any other v his weighted kappa
/// (1968, Psychol. Bull. 70, 213). 1: full agreement; 0: as good as chance; below: worse. NaN where chance alone
/// can't disagree (everything in one group).
#pragma once
#include <vector>

namespace tidemark::judge {

using Table = std::vector<std::vector<double>>; ///< square; counts or shares, any scale

double weighted_kappa(const Table& found, const Table& weight);

Table unweighted(int groups);        ///< 1 off the diagonal
Table linear_weights(int groups);    ///< |i - j|
Table quadratic_weights(int groups); ///< (i - j)²

} // namespace tidemark::judge
