#include "core/stats/robust_linear.h"

#include "core/stats/collinearity.h"
#include "core/stats/ranks.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <span>

namespace washfast::stats {

namespace {

constexpr double k = 1.345; // 95 % efficient when the errors are normal
constexpr double normal_quartile = 0.6745;
constexpr int most_steps = 500;

double spreadOf(const Vector& residuals)
{
    std::vector<double> sizes(static_cast<std::size_t>(residuals.size()));
    for (Eigen::Index i = 0; i < residuals.size(); ++i)
        sizes[static_cast<std::size_t>(i)] = std::fabs(residuals(i));
    return median(sizes).value_or(0.0) / normal_quartile;
}

Eigen::ArrayXd weightsOf(const Vector& residuals, double scale)
{
    return residuals.array()
        .abs()
        .max(1e-300)
        .inverse()
        .cwiseProduct(Eigen::ArrayXd::Constant(residuals.size(), k * scale))
        .min(1.0);
}

} // namespace

std::optional<RobustFit> robustLinear(const Matrix& columns, const Vector& outcome, double confidence)
{
    const Eigen::Index n = columns.rows();
    const Eigen::Index terms = columns.cols() + 1;
    if (n <= terms)
        return std::nullopt;
    // On columns of mean 0 and spread 1, as in the logistic fit.
    const Eigen::RowVectorXd means = columns.colwise().mean();
    const Matrix around = centred(columns);
    const Eigen::RowVectorXd spreads = (around.colwise().squaredNorm() / static_cast<double>(n)).cwiseSqrt();
    if ((spreads.array() <= 1e-12 * means.array().abs()).any())
        return std::nullopt;
    Matrix design(n, terms);
    design.col(0).setOnes();
    for (Eigen::Index j = 1; j < terms; ++j)
        design.col(j) = around.col(j - 1) / spreads(j - 1);
    if (rankOf(design) < static_cast<int>(terms))
        return std::nullopt;

    Vector beta = leastSquares(design, outcome);
    Vector residuals = outcome - product(design, beta);
    const double size = (outcome.array() - outcome.mean()).abs().maxCoeff();
    double scale = spreadOf(residuals);
    for (int step = 0; step < most_steps; ++step) {
        scale = spreadOf(residuals);
        if (scale <= 1e-12 * size)
            return std::nullopt;
        const Eigen::ArrayXd root = weightsOf(residuals, scale).sqrt();
        const Vector next = leastSquares(
            Matrix((design.array().colwise() * root).matrix()), Vector((outcome.array() * root).matrix()));
        const double moved = (next - beta).norm();
        beta = next;
        residuals = outcome - product(design, beta);
        if (moved <= 1e-12 * (beta.norm() + scale))
            break;
    }
    scale = spreadOf(residuals);
    if (scale <= 1e-12 * size)
        return std::nullopt;

    const Eigen::ArrayXd weights = weightsOf(residuals, scale);
    const Eigen::ArrayXd slope = (residuals.array().abs() <= k * scale).cast<double>();
    const auto count = static_cast<double>(n);
    const auto degrees = static_cast<double>(n - terms);
    const double mean_slope = slope.mean();
    const double slope_variance = (slope - mean_slope).square().sum() / (count - 1.0);
    const double correction = 1.0 + static_cast<double>(terms) * slope_variance / (count * mean_slope * mean_slope);
    const double square = (weights * residuals.array()).square().sum() / degrees;
    const double deviation = std::sqrt(square) * correction / mean_slope;

    // Back to the person's columns: the constant is a turn of all terms.
    Matrix back = Matrix::Zero(terms, terms);
    back(0, 0) = 1.0;
    for (Eigen::Index j = 1; j < terms; ++j) {
        back(0, j) = -means(j - 1) / spreads(j - 1);
        back(j, j) = 1.0 / spreads(j - 1);
    }
    const Matrix inverse
        = solveSymmetric(transposedProduct(design, design), Matrix(Matrix::Identity(terms, terms))).solution;
    const Vector estimates = product(back, beta);
    const Vector variances = product(product(back, inverse), Matrix(back.transpose())).diagonal();

    const boost::math::students_t t(degrees);
    const double reach = boost::math::quantile(t, 0.5 + confidence / 2.0);
    RobustFit fit;
    fit.scale = scale;
    fit.degrees_of_freedom = static_cast<int>(n - terms);
    for (Eigen::Index j = 0; j < terms; ++j) {
        RobustTerm term;
        term.estimate = estimates(j);
        term.standard_error = deviation * std::sqrt(variances(j));
        term.low = term.estimate - reach * term.standard_error;
        term.high = term.estimate + reach * term.standard_error;
        term.p = 2.0 * boost::math::cdf(boost::math::complement(t, std::fabs(term.estimate) / term.standard_error));
        fit.terms.push_back(term);
    }
    return fit;
}

} // namespace washfast::stats
