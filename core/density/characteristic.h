// Density against log exposure: a curve through the steps of a wedge, what can be read from it, and how sure it is.
//
//     CurveRequest request { .points = { { -0.9, 0.10 }, ... }, .targets = { 0.9 } };
//     const auto fit = fitCurve(request);
//
// The logistic by least squares where the steps support it (at least six, two of them on each side of the midpoint, or
// fewer with parameters fixed); otherwise a rising curve through isotonic means, which is never read outside its steps.
// Nothing is read outside the steps of a logistic either. The deepest steps that turn back are left out with a note.
// Intervals are 95 % by the profile of the sum of squares.
#pragma once

#include "core/density/logistic.h"
#include "core/quantity/result.h"
#include "core/stats/matrix.h"
#include "core/stats/monotone.h"

#include <QStringList>
#include <array>
#include <vector>

namespace washfast::density {

struct CurvePoint {
    double log_h = 0; // log10 of J/cm2
    double density = 0;
    double weight = 1; // 1 / variance, up to a factor
};

enum CurveParameter { DMin, DMax, Midpoint, Slope, curveParameters };

struct CurveRequest {
    std::vector<CurvePoint> points;
    std::array<std::optional<double>, curveParameters> fixed;
    std::vector<double> targets; // densities
    bool intervals = true;
};

struct Interval {
    std::optional<double> low, high; // empty when that end was not found
};

struct CurveTarget {
    double density = 0;
    std::optional<double> log_h, log_h_low, log_h_high;
};

enum class CurveModel { Logistic, Monotone };

struct CurveFit {
    CurveModel model = CurveModel::Logistic;
    std::vector<CurvePoint> used; // by rising log_h
    std::vector<CurvePoint> left_out; // steps that turned back
    Logistic curve; // d_min, d_max and midpoint are also given for a monotone one; slope is not
    std::optional<stats::MonotoneCurve> monotone;
    double residual_sd = 0, sum_of_squares = 0;
    int degrees_of_freedom = 0;
    std::array<std::optional<double>, curveParameters> standard_errors; // empty: fixed or not to be had
    std::array<Interval, curveParameters> intervals;
    double max_gradient = 0;
    std::optional<double> toe_log_h, shoulder_log_h; // empty outside the steps
    std::vector<CurveTarget> targets;
    QStringList warnings;
    stats::Matrix covariance; // of the free parameters, in the order of the enumeration
    std::vector<int> free;
    // Of a curve through several prints: how much of the midpoint's variance comes from their differing.
    double shift_variance = 0;
    int shift_degrees_of_freedom = 0; // 0: of one print

    [[nodiscard]] double lowest() const { return used.front().log_h; }
    [[nodiscard]] double highest() const { return used.back().log_h; }
    [[nodiscard]] std::optional<double> range() const;
    /// Mean slope between toe and shoulder.
    [[nodiscard]] std::optional<double> contrast() const;
    /// Nothing outside the steps.
    [[nodiscard]] std::optional<double> densityAt(double log_h) const;
    [[nodiscard]] std::optional<double> exposureFor(double density) const;
    /// 95 % band of the curve itself; empty for a monotone one.
    [[nodiscard]] Interval bandAt(double log_h) const;
};

[[nodiscard]] Result<CurveFit> fitCurve(const CurveRequest& request);

} // namespace washfast::density
