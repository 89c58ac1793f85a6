// Permutation tests, two-sided, within blocks. All arrangements are enumerated when they are few, else seeded Monte
// Carlo draws give p = (as extreme + 1) / (draws + 1). The answer does not depend on the order of the items.
//
// The statistic is centred on its mean over the arrangements within the blocks; arrangements within 1 part in 10^9 of
// the observed one count as equally extreme. When nothing varies within any block, p is 1.
#pragma once

#include "core/stats/test_result.h"

#include <span>

namespace washfast::stats {

/// Difference of the means of two groups. `group` holds 1 for the one and 0 for the other; `block` one number an item,
/// or empty for one block.
[[nodiscard]] TestResult differenceOfMeansTest(std::span<const double> values, std::span<const int> group,
    std::span<const int> block = {}, const PermutationOptions& options = {});

/// Mean of paired differences: each may have had the other sign.
[[nodiscard]] TestResult signFlipTest(std::span<const double> differences, const PermutationOptions& options = {});

/// Straight-line association of x and y: the values of y are exchanged.
[[nodiscard]] TestResult correlationTest(std::span<const double> x, std::span<const double> y,
    std::span<const int> block = {}, const PermutationOptions& options = {});

/// Differences between the means of several groups, numbered from 0: the sum of squares between them.
[[nodiscard]] TestResult groupMeansTest(std::span<const double> values, std::span<const int> group,
    std::span<const int> block = {}, const PermutationOptions& options = {});

} // namespace washfast::stats
