// What moved together: how strongly two factors are tied in these prints, and whether one still goes with the outcome
// when another is held equal.
#pragma once

#include "core/causes/prepared.h"

namespace washfast::causes {

struct Tie {
    double association = 0.0; // 0 .. 1
    double corrected = 0.0; // with the part taken away that many choices and few prints give by chance
    std::optional<int> disagree; // when at least one of the two has two levels
    int n_both = 0; // prints where both are known
    bool cannot_be_told_apart = false; // the same in all of these prints, or in all but one or two
};

/// Empty when fewer than four prints have both, or one does not vary in those.
[[nodiscard]] std::optional<Tie> tieOf(const Prepared& prepared, std::size_t a, std::size_t b);

/// Exact or permutation p of the factor with the rivals held equal, in the prints where all are known. Two levels
/// against discrete rivals: the exact conditional test within their levels. Otherwise permutation of residuals.
/// `also_known`: only prints where these are known too, without holding them equal.
[[nodiscard]] double pHeldEqual(const Prepared& prepared, std::size_t factor, const std::vector<std::size_t>& rivals,
    const std::vector<std::size_t>& also_known, const Options& options);

/// When a rival choice has many levels (days, makers), the levels themselves can be the unit: p of the factor's mean
/// against the outcome's mean over the levels. Empty with fewer than six levels.
[[nodiscard]] std::optional<double> pBetweenLevels(
    const Prepared& prepared, std::size_t factor, std::size_t rival, const Options& options);

/// The factor follows exactly from these two together (with a constant), in at least eight prints. Numbers, yes/no and
/// choices of two levels only.
[[nodiscard]] bool followsFrom(const Prepared& prepared, std::size_t factor, std::size_t first, std::size_t second);

/// Variance inflation of each number and yes/no among those known for at least four prints in five; empty for the
/// others and when the prints are too few.
[[nodiscard]] std::vector<std::optional<double>> inflation(const Prepared& prepared);

} // namespace washfast::causes
