// One curve for a mix on a paper, from several prints, and how its speed drifts with the age of the mix.
//
//     density of step i of print k = logistic(log_h - shift_k) + error,   shift_k normal around 0 with sd `shift_sd`
//
// A nonlinear mixed model: the curve, linearised where it stands, and the shifts are found together by penalised least
// squares (Lindstrom and Bates, Biometrics 46 (1990) 673); the two variances by restricted maximum likelihood with the
// fixed-point iteration of Harville (J. Am. Stat. Assoc. 72 (1977) 320). A shift is drawn to zero as far as its own
// steps are few and the prints agree. Without any difference between prints it is the plain least-squares curve
// through all steps.
//
// How often the 95 % intervals hold, in 1,000 made-up terms each (ten steps a print, shifts of sd 0.10, densities of sd
// 0.025): with eight prints sd 95.3, exposure for a density 94.1, next print 94.7 of 100; with three prints 95.5, 92.8,
// 93.2; with two 87.9, 88.5, 97.2.
#pragma once

#include "core/density/characteristic.h"
#include "core/stats/matrix.h"

namespace washfast::density {

struct PooledPoint {
    double log_h = 0, density = 0;
    int print = 0; // from 0
};

struct PooledCurve {
    Logistic curve; // of a print of ordinary speed
    std::vector<double> shifts; // of each print in log exposure; above 0: it needs more
    std::vector<double> shift_errors; // standard errors
    double shift_sd = 0; // between prints
    Interval shift_sd_95; // by chi squared with the prints' effective degrees of freedom
    double residual_sd = 0; // within a print
    double lowest = 0, highest = 0; // of the steps, with the shifts taken off
    stats::Matrix covariance; // of the curve's four
    int degrees_of_freedom = 0; // within prints

    [[nodiscard]] int prints() const { return int(shifts.size()); }
    /// 95 % interval of the exposure that the next print of ordinary making needs when the mean one needs `log_h`.
    [[nodiscard]] Interval nextPrint(const CurveTarget& target) const;
};

inline constexpr int mostPooledPrints = 100;

/// Refused when there are fewer than two prints or six steps, too many prints, or the steps together do not support an
/// S-shaped curve.
[[nodiscard]] Result<PooledCurve> poolCurves(const std::vector<PooledPoint>& points);

/// The common curve to be read like that of one print: its steps are those of all prints with their shifts taken off,
/// its band says where the curve of an ordinary print lies (degrees of freedom after Satterthwaite, Biometrics Bulletin
/// 2 (1946) 110).
[[nodiscard]] CurveFit commonCurve(
    const PooledCurve& pooled, const std::vector<PooledPoint>& points, const std::vector<double>& targets = {});

/// How the shifts go with something else, such as the age of the mix in days: a straight line, as one more parameter
/// of the same model, so that shifts which are little known count little and none is drawn to zero first.
struct Drift {
    double per_unit = 0, standard_error = 0;
    double low = 0, high = 0; // 95 %, Student's t with two less than the prints
    double middle = 0; // mean of the values
    double at_middle = 0; // shift on the line there, on the scale of PooledCurve::shifts
    int prints = 0;
};
/// `values`: one for each print. Nothing with fewer than three prints whose value is known, or all of one value.
[[nodiscard]] std::optional<Drift> driftWith(const PooledCurve& pooled, const std::vector<PooledPoint>& points,
    const std::vector<std::optional<double>>& values);

} // namespace washfast::density
