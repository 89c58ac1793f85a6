// The numerical part of characteristic.h: one logistic fit with some parameters held.
#pragma once

#include "core/density/characteristic.h"
#include "core/stats/least_squares.h"

namespace washfast::density {

using CurveParameters = std::array<double, curveParameters>;

[[nodiscard]] Logistic toLogistic(const CurveParameters& p);

struct HeldFit {
    bool ok = false;
    CurveParameters parameters {};
    double sum_of_squares = 0;
    stats::LeastSquaresFit fit;
    std::vector<int> free;
};

/// Starts at `start`; parameters with `held` stay where they are.
[[nodiscard]] HeldFit fitHeld(
    const std::vector<CurvePoint>& points, const CurveParameters& start, const std::array<bool, curveParameters>& held);

/// The same, with the exposure at which the curve passes `density` held instead of the midpoint.
[[nodiscard]] HeldFit fitThrough(const std::vector<CurvePoint>& points, const CurveParameters& start,
    const std::array<bool, curveParameters>& held, double density, double log_h);

/// Both ends where the sum of squares, minimised over the rest, is `allowed`.
[[nodiscard]] Interval profileInterval(double estimate, double first_step, double allowed,
    const std::function<std::optional<double>(double value)>& sum_of_squares);

} // namespace washfast::density
