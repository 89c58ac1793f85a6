// Exact tests of counts, conditional on the margins.
//
//   2 x 2            Fisher's exact test; two-sided is the sum over the tables that are no likelier than the observed
//   one. 2 x 2 in strata  the same on the total of the first cell, whose distribution is the convolution of the
//   strata's
//                    hypergeometric distributions (the exact conditional test of a common odds ratio of 1).
//   k x 2            Freeman and Halton's extension (Biometrika 38 (1951) 141), enumerated, or by seeded Monte Carlo.
//
// Two tables whose probabilities differ by less than 1 part in 10^7 count as equally likely.
#pragma once

#include "core/stats/test_result.h"

#include <span>

namespace washfast::stats {

/// Rows: with the factor, without it. Columns: failed, kept. No count is negative.
struct TwoByTwo {
    int with_failed = 0, with_kept = 0;
    int without_failed = 0, without_kept = 0;

    [[nodiscard]] int with() const { return with_failed + with_kept; }
    [[nodiscard]] int without() const { return without_failed + without_kept; }
    [[nodiscard]] int failed() const { return with_failed + without_failed; }
    [[nodiscard]] int total() const { return with() + without(); }
};

struct FisherResult {
    double two_sided = 1.0;
    double greater = 1.0; // P(first cell at least as large as observed)
    double less = 1.0; // P(first cell at most as large as observed)
};

[[nodiscard]] FisherResult fisher(const TwoByTwo& table);

/// Strata in which a margin is empty carry no information and change nothing.
[[nodiscard]] FisherResult stratifiedExact(std::span<const TwoByTwo> strata);

/// One row of a k x 2 table.
struct FailedKept {
    int failed = 0, kept = 0;
};

/// Two-sided. Enumerates up to `most_tables` tables, else draws `options.draws` tables with the observed margins.
[[nodiscard]] TestResult freemanHalton(
    std::span<const FailedKept> rows, const PermutationOptions& options = {}, std::uint64_t most_tables = 2'000'000);

} // namespace washfast::stats
