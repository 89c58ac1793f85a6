// Factors as levers of a plan: each with two settings, as in the prints that failed and as in those that kept, and the
// chance that prints made with them settle the question.
#pragma once

#include "core/causes/next_prints.h"

namespace washfast::causes {

/// A factor with its two settings, and on which side of it each print of the table lies.
struct Lever {
    const Factor* factor = nullptr;
    const FactorEvidence* evidence = nullptr;
    Setting bad, good;
    std::vector<int> side; // 1: as in the prints that failed; -1: not known
};

/// Empty when the factor cannot be set to two values that differ in how the prints came out.
[[nodiscard]] std::optional<Lever> leverOf(const FactorTable& table, const FactorEvidence& evidence);

/// 1 failed, 0 kept; of a number, the worse half. Empty where unknown.
[[nodiscard]] std::vector<std::optional<int>> failedOf(const FactorTable& table);

using Combination = std::vector<int>; // a side for each lever

/// The smallest chance, over which of the levers is the cause and which other one it has to be told from, that the
/// exact test within the rival's levels comes out below alpha; summed over all that the prints to be made can show.
/// `with_present`: the prints that are there count too.
[[nodiscard]] double chanceToSettle(const std::vector<Lever>& levers, const std::vector<Combination>& made,
    const std::vector<std::optional<int>>& failed, bool with_present, double alpha);

} // namespace washfast::causes
