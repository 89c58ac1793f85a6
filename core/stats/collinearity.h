// What moves together among several columns: variance inflation, condition indices and variance proportions (Belsley,
// Kuh and Welsch, Regression Diagnostics, 1980, chapter 3), rank.
#pragma once

#include "core/stats/matrix.h"

#include <optional>
#include <vector>

namespace washfast::stats {

/// 1 / (1 - R^2) of each column on all the others and a constant; empty for a column that the others give exactly, and
/// for all when there are no more rows than columns.
[[nodiscard]] std::vector<std::optional<double>> varianceInflation(const Matrix& columns);

struct Conditioning {
    Vector singular_values; // of the columns scaled to length 1, not centred; largest first
    Vector condition_indices; // infinite for an exact dependency
    Matrix variance_proportions; // row: singular value, column: variable; each column sums to 1
};

[[nodiscard]] Conditioning conditioning(const Matrix& columns);

/// Rank of the columns, each scaled to length 1, with singular values below `tolerance` times the largest taken as 0.
[[nodiscard]] int rankOf(const Matrix& columns, double tolerance = 1e-9);

} // namespace washfast::stats
