// Hodges and Lehmann's estimate of the shift between two groups, with the interval of Moses from the distribution of
// the Wilcoxon-Mann-Whitney count (Hollander and Wolfe, Nonparametric Statistical Methods, chapter 4). In several
// blocks only pairs from the same block are compared, and the blocks' distributions are convolved.
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace washfast::stats {

struct ShiftStratum {
    std::vector<double> first, second;
};

struct Shift {
    double value = 0.0; // first minus second: median of all differences of pairs
    std::optional<double> low, high; // empty when the groups are too small to give an interval at this confidence
    double achieved_confidence = 0.0; // at least what was asked, when there is an interval
    bool exact = true; // false: normal approximation of the count, for large groups
};

/// Empty when no stratum has a value on both sides.
[[nodiscard]] std::optional<Shift> hodgesLehmann(std::span<const ShiftStratum> strata, double confidence = 0.95);
[[nodiscard]] std::optional<Shift> hodgesLehmann(
    std::span<const double> first, std::span<const double> second, double confidence = 0.95);

/// P(U = u), u = 0 .. m n, for groups of m and n without ties, when the groups do not differ.
[[nodiscard]] std::vector<double> mannWhitneyDistribution(int m, int n);

} // namespace washfast::stats
