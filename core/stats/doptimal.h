// Which further rows say most: rows are added one at a time so that det(X'X) grows most, then exchanged while that
// helps (Wynn, Ann. Math. Stat. 41 (1970) 1655; Fedorov, Theory of Optimal Experiments, 1972). A start that is singular
// is helped by adding `ridge` to the diagonal.
#pragma once

#include "core/stats/matrix.h"

#include <vector>

namespace washfast::stats {

/// X'X of rows that already have their constant.
[[nodiscard]] Matrix information(const Matrix& rows);

/// ln det(information + ridge I); minus infinity when that is singular.
[[nodiscard]] double logDeterminant(const Matrix& information, double ridge = 0.0);

/// Indices of `count` candidate rows (one may be taken several times), in ascending order. Of equal ones the first is
/// taken.
[[nodiscard]] std::vector<std::size_t> augmentDOptimally(
    const Matrix& present, const Matrix& candidates, int count, double ridge = 0.05);

} // namespace washfast::stats
