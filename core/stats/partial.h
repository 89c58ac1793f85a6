// Does a factor still go with the outcome when others are held equal? Permutation of the residuals that are left when
// the others have been fitted (Freedman and Lane, J. Bus. Econ. Stat. 1 (1983) 292), within blocks, by seeded draws.
#pragma once

#include "core/stats/matrix.h"
#include "core/stats/test_result.h"

#include <span>

namespace washfast::stats {

/// `factor` and `others`: one row an item, one column a number or a level's 0/1; `block` one number an item or empty.
/// A constant and the blocks are among the others without being given. Two-sided; p is 1 when the others already give
/// the factor, or when there are too few items to tell. The order of the items does not matter.
/// Looks at `stop_at`.
[[nodiscard]] TestResult partialTest(const Matrix& factor, const Matrix& others, const Vector& outcome,
    std::span<const int> block = {}, const PermutationOptions& options = {});

} // namespace washfast::stats
