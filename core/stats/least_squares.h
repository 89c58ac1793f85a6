// Least squares, linear and not.
//
// Not linear: Levenberg (1944) and Marquardt (1963) in the trust region form of More, "The Levenberg-Marquardt
// algorithm: implementation and theory" (Lecture Notes in Mathematics 630, 1978): no step is longer than a radius that
// follows the gain, measured by the largest size that each column of the Jacobian has had. The first radius is a tenth
// of the start (the low end of More's range, 0.1 to 100); a fit that ends where a parameter no longer matters is tried
// once more with the whole of it. A derivative that is not given is taken by central differences. Linear: QR with
// column pivoting of scaled columns in extended precision.
//
//     const auto fit = fitLeastSquares(start, points, [&](auto p, auto r) { for (...) r[i] = y[i] - f(x[i], p); });
//
// Checked against the Statistical Reference Datasets of NIST (tests/reference).
#pragma once

#include "core/stats/matrix.h"

#include <functional>
#include <span>
#include <vector>

namespace washfast::stats {

/// Fills the residuals (observed minus fitted, already divided by their standard deviations where they differ). A value
/// that is not finite says that these parameters are impossible: the step is then shortened.
using Residuals = std::function<void(std::span<const double> parameters, std::span<double> residuals)>;
/// Derivatives of the residuals: one row a residual, one column a parameter.
using Jacobian = std::function<void(std::span<const double> parameters, Matrix& jacobian)>;

struct LeastSquaresOptions {
    int iterations = 2000;
    double step_tolerance = 1e-13; // relative to the parameters
    double gradient_tolerance = 1e-14; // cosine between the residuals and the columns of the Jacobian
    Jacobian jacobian; // central differences when empty
};

enum class FitEnd { Converged, TooManySteps, BadStart };

struct LeastSquaresFit {
    FitEnd end = FitEnd::BadStart;
    std::vector<double> parameters;
    double sum_of_squares = 0.0;
    int degrees_of_freedom = 0; // residuals minus parameters
    double residual_sd = 0.0; // 0 when there are no degrees of freedom
    /// (J'J)^-1, not yet times the residual variance; empty when the parameters cannot be told apart.
    Matrix inverse_information;
    int iterations = 0;

    [[nodiscard]] bool ok() const { return end == FitEnd::Converged; }
    [[nodiscard]] bool hasErrors() const { return inverse_information.size() > 0 && degrees_of_freedom > 0; }
    /// Standard error with the residual standard deviation of this fit; call only when hasErrors().
    [[nodiscard]] double standardError(std::size_t parameter) const;
};

[[nodiscard]] LeastSquaresFit fitLeastSquares(std::span<const double> start, std::size_t residual_count,
    const Residuals& residuals, const LeastSquaresOptions& options = {});

struct LinearFit {
    bool full_rank = false;
    std::vector<double> coefficients; // one a column of the design
    std::vector<double> standard_errors; // empty without degrees of freedom
    double sum_of_squares = 0.0;
    int degrees_of_freedom = 0;
    double residual_sd = 0.0;
    Matrix inverse_information;
};

/// `design`: one row an observation. With `weights` (1 / variance, up to a factor) the weighted sum is least. The
/// design is held in extended precision, so that powers of a column lose no digits.
[[nodiscard]] LinearFit fitLinear(const Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>& design,
    std::span<const double> observed, std::span<const double> weights = {});

} // namespace washfast::stats
