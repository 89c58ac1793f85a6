// How likely a comparison of two equal groups is to come out, with Fisher's exact test: the honest sample size.
#pragma once

#include <optional>

namespace washfast::stats {

/// Chance that the two-sided exact p is at most `alpha`, with `per_group` prints each failing at the two rates.
[[nodiscard]] double fisherPower(int per_group, double first_rate, double second_rate, double alpha = 0.05);

/// The smallest number for each group from which on (it and the next one) the power is at least `power`; empty when
/// more than `most` would be needed.
[[nodiscard]] std::optional<int> printsPerGroup(
    double first_rate, double second_rate, double alpha = 0.05, double power = 0.8, int most = 80);

} // namespace washfast::stats
