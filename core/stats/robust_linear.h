// Straight-line regression that a few wild values do not spoil: Huber's M-estimate (Ann. Math. Stat. 35 (1964) 73) with
// k = 1.345, by iteratively reweighted least squares; the spread is the median of the absolute residuals / 0.6745.
// Standard errors as in Huber, Robust Statistics (1981), section 7.6, equation 6.5, with his correction K; intervals
// and p by Student's t.
#pragma once

#include "core/stats/matrix.h"

#include <optional>
#include <vector>

namespace washfast::stats {

struct RobustTerm {
    double estimate = 0.0; // per unit of the column
    double standard_error = 0.0;
    double low = 0.0, high = 0.0;
    double p = 1.0;
};

struct RobustFit {
    std::vector<RobustTerm> terms; // the constant first, then one a column
    double scale = 0.0; // spread of the residuals
    int degrees_of_freedom = 0;
};

/// `columns`: one row an item, without the constant. Empty with no degrees of freedom, columns that follow from one
/// another, or more than half of the items on one plane (the spread is then 0).
[[nodiscard]] std::optional<RobustFit> robustLinear(
    const Matrix& columns, const Vector& outcome, double confidence = 0.95);

} // namespace washfast::stats
