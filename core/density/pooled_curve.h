// One curve for a mix on a paper, from several prints. Each print has its own speed: its exposures are shifted by an
// amount that is drawn to zero as far as the prints agree (a random effect; the variances by the iteration of Laird and
// Ware, Biometrics 38 (1982) 963).
#pragma once

#include "core/density/characteristic.h"

namespace washfast::density {

struct PooledPoint {
    double log_h = 0, density = 0;
    int print = 0; // from 0
};

struct PooledCurve {
    Logistic curve; // of a print of ordinary speed
    std::vector<double> shifts; // of each print in log exposure; above 0: it needs more
    std::vector<double> shift_errors;
    double shift_sd = 0; // between prints
    double residual_sd = 0; // within a print
    double lowest = 0, highest = 0; // of the steps
};

/// Refused when there are fewer than two prints or six steps, or the steps do not support an S-shaped curve.
[[nodiscard]] Result<PooledCurve> poolCurves(const std::vector<PooledPoint>& points);

/// How the shifts go with something else, such as the age of the mix in days: a straight line.
struct Drift {
    double per_unit = 0, standard_error = 0;
    int prints = 0;
};
/// Nothing with fewer than three prints whose value is known, or all of one value.
[[nodiscard]] std::optional<Drift> driftWith(
    const PooledCurve& pooled, const std::vector<std::optional<double>>& values);

} // namespace washfast::density
