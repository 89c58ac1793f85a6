// Factors that follow from one another: the rank of all columns together, and what is nearly dependent by condition
// index and variance proportions (Belsley, Kuh and Welsch, Regression Diagnostics, 1980: an index of 30 or more with at
// least two proportions of a half or more).
#pragma once

#include "core/causes/prepared.h"

namespace washfast::causes {

struct Dependencies {
    std::vector<Dependency> list; // exact ones first
    std::optional<double> largest_condition_index; // of the columns that are left when the exact ones are taken out
};

/// Among the factors known for at least four prints in five, over the prints that have them all. `plain_only`: only
/// numbers, yes/no and choices of two levels. Empty when fewer than four more prints than columns are left.
[[nodiscard]] Dependencies findDependencies(const Prepared& prepared, bool plain_only);

} // namespace washfast::causes
