/// The best cuts of a histogram into a few classes.
///
/// Maximises the between-class variance Σ w_k (m_k - m)², by trying every cut: dynamic programming over the filled
/// levels finds the exact optimum in (classes × levels²) steps. With two classes it is Otsu's threshold.
/// Source: Otsu 1979 (IEEE Trans. Syst. Man Cybern. 9, 62); the programme over levels is the classical one for
/// least-squares grouping on a line (Fisher 1958, J. Am. Stat. Assoc. 53, 789).
#pragma once
#include <span>
#include <vector>

namespace tidemark::reference {

/// `histogram[v]`: how many pixels have level v (≥ 0). Returns the last level of every class but the top one, rising:
/// class k holds the levels in (t[k-1], t[k]]. Each is a filled level, so of equally good cuts in an empty stretch
/// the lowest is meant. Where fewer levels are filled than classes asked for, every filled level is a class.
std::vector<int> otsu_cuts(std::span<const double> histogram, int classes);

/// Between-class variance of such cuts, in levels².
double between_class_variance(std::span<const double> histogram, std::span<const int> cuts);

} // namespace tidemark::reference
