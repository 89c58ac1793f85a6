// Ranks, medians.
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace washfast::stats {

/// Ranks from 1; equal values share the mean of their ranks.
[[nodiscard]] std::vector<double> midranks(std::span<const double> values);

/// Of a sorted, non-empty list.
[[nodiscard]] double medianOfSorted(std::span<const double> sorted);

/// Empty for an empty list.
[[nodiscard]] std::optional<double> median(std::span<const double> values);

} // namespace washfast::stats
