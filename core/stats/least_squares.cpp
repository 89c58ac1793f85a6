#include "core/stats/least_squares.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::stats {

namespace {

using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;

constexpr double stillSteep = 1e-4; // cosine between residuals and a column at a place that is no minimum

class Problem {
public:
    Problem(std::size_t count, const Residuals& residuals, const Jacobian& jacobian)
        : residuals_(residuals)
        , jacobian_(jacobian)
        , count_(count)
    {
    }

    [[nodiscard]] Vector at(const Vector& p) const
    {
        Vector r(Eigen::Index(count_), 1);
        residuals_({ p.data(), std::size_t(p.size()) }, { r.data(), count_ });
        return r;
    }

    [[nodiscard]] Matrix slopes(const Vector& p, const Vector& scale) const
    {
        Matrix j(Eigen::Index(count_), p.size());
        if (jacobian_) {
            jacobian_({ p.data(), std::size_t(p.size()) }, j);
            return j;
        }
        // Two central differences, h and h/2, combined by Richardson: an error of order h^4.
        const double h0 = std::pow(std::numeric_limits<double>::epsilon(), 0.2);
        Vector q = p;
        for (Eigen::Index k = 0; k < p.size(); ++k) {
            const double h = h0 * std::max(std::abs(p[k]), 1e-6 * scale[k]);
            Vector wide = difference(q, p, k, h);
            const Vector narrow = difference(q, p, k, h / 2);
            j.col(k) = narrow.allFinite() ? (wide.allFinite() ? Vector((4 * narrow - wide) / 3) : narrow)
                                          : difference(q, p, k, h * 1e-3);
        }
        return j;
    }

private:
    [[nodiscard]] Vector difference(Vector& q, const Vector& p, Eigen::Index k, double h) const
    {
        q[k] = p[k] + h;
        const double up = q[k];
        const Vector above = at(q);
        q[k] = p[k] - h;
        const double down = q[k];
        const Vector below = at(q);
        q[k] = p[k];
        return (above - below) / (up - down);
    }

    const Residuals& residuals_;
    const Jacobian& jacobian_;
    std::size_t count_;
};

double squared(const Vector& r)
{
    return r.allFinite() ? r.squaredNorm() : std::numeric_limits<double>::infinity();
}

/// The damped step: least squares of [J; sqrt(damping) D] step = [-r; 0].
Vector dampedStep(const Matrix& j, const Vector& r, const Vector& scale, double damping)
{
    Matrix system(j.rows() + j.cols(), j.cols());
    system << j, Matrix((std::sqrt(damping) * scale).asDiagonal());
    Vector right = Vector::Zero(system.rows());
    right.head(r.size()) = -r;
    return system.colPivHouseholderQr().solve(right);
}

/// Largest cosine between the residuals and a column.
double steepest(const Matrix& j, const Vector& r)
{
    double most = 0;
    const double length = r.norm();
    for (Eigen::Index k = 0; k < j.cols(); ++k)
        if (const double column = j.col(k).norm(); column > 0 && length > 0)
            most = std::max(most, std::abs(j.col(k).dot(r)) / (column * length));
    return most;
}

Matrix inverseInformation(const Matrix& j)
{
    Vector size = j.colwise().norm().transpose();
    for (Eigen::Index k = 0; k < size.size(); ++k)
        if (!(size[k] > 0) || !std::isfinite(size[k]))
            return {};
    const Vector shrink = size.cwiseInverse();
    Eigen::ColPivHouseholderQR<Matrix> qr(j * shrink.asDiagonal());
    qr.setThreshold(1e-12);
    if (qr.rank() < j.cols())
        return {};
    const Matrix upper = qr.matrixR().topLeftCorner(j.cols(), j.cols()).triangularView<Eigen::Upper>();
    const Matrix inverse = upper.triangularView<Eigen::Upper>().solve(Matrix::Identity(j.cols(), j.cols()));
    const Matrix turned = qr.colsPermutation() * inverse;
    return shrink.asDiagonal() * (turned * turned.transpose()) * shrink.asDiagonal();
}

} // namespace

double LeastSquaresFit::standardError(std::size_t parameter) const
{
    const auto k = Eigen::Index(parameter);
    return residual_sd * std::sqrt(inverse_information(k, k));
}

namespace {

/// What a parameter's step is measured by in the damping.
enum class Scaling {
    Columns, // the largest size its column of the Jacobian has had
    Values // the size of its start: every parameter moves by about the same share
};

LeastSquaresFit descend(std::span<const double> start, std::size_t residual_count, const Residuals& residuals,
    const LeastSquaresOptions& options, Scaling scaling)
{
    LeastSquaresFit fit;
    fit.parameters.assign(start.begin(), start.end());
    fit.degrees_of_freedom = int(residual_count) - int(start.size());
    const Problem problem(residual_count, residuals, options.jacobian);
    Vector p = Eigen::Map<const Vector>(start.data(), Eigen::Index(start.size()));
    Vector r = problem.at(p);
    double sum = squared(r);
    if (!std::isfinite(sum) || start.empty() || residual_count < start.size())
        return fit;

    const Vector first = p.cwiseAbs().cwiseMax(1e-6); // typical size of each parameter, for those that become zero
    Matrix j = problem.slopes(p, first);
    const auto columns = [&] {
        Vector sizes = j.colwise().norm().transpose();
        for (Eigen::Index k = 0; k < sizes.size(); ++k)
            if (!(sizes[k] > 0))
                sizes[k] = 1;
        return sizes;
    };
    Vector scale = scaling == Scaling::Columns ? columns() : Vector(j.norm() * first.cwiseInverse());
    double damping = scaling == Scaling::Columns ? 1e-3 : 1.0, growth = 2;
    int small_steps = 0, fresh_starts = 0;
    fit.end = FitEnd::TooManySteps;
    for (; fit.iterations < options.iterations; ++fit.iterations) {
        if (!j.allFinite())
            break;
        if (sum == 0 || steepest(j, r) < options.gradient_tolerance) {
            fit.end = FitEnd::Converged;
            break;
        }
        const Vector step = dampedStep(j, r, scale, damping);
        const Vector tried = p + step;
        const Vector there = problem.at(tried);
        const double sum_there = squared(there);
        const double expected = sum - (r + j * step).squaredNorm();
        const double gain = expected > 0 ? (sum - sum_there) / expected : (sum_there < sum ? 1.0 : -1.0);
        const double moved = (step.cwiseQuotient(p.cwiseAbs() + 1e-6 * first)).cwiseAbs().maxCoeff();
        if (sum_there < sum && gain > 1e-4) {
            p = tried;
            r = there;
            sum = sum_there;
            j = problem.slopes(p, first);
            if (scaling == Scaling::Columns)
                scale = scale.cwiseMax(j.colwise().norm().transpose());
            damping *= std::max(0.1, 1 - std::pow(2 * gain - 1, 3));
            damping = std::max(damping, 1e-18);
            growth = 2;
            small_steps = moved < options.step_tolerance ? small_steps + 1 : 0;
        } else {
            if (moved < options.step_tolerance || damping > 1e30)
                ++small_steps;
            damping *= growth;
            growth *= 2;
        }
        if (small_steps >= 2) {
            // Small steps on a slope: the damping remembers a place far away. Forget it and go on.
            if (steepest(j, r) > stillSteep && fresh_starts < 50 && j.allFinite()) {
                scale = columns();
                damping = 1e-3;
                growth = 2;
                small_steps = 0;
                ++fresh_starts;
                continue;
            }
            fit.end = FitEnd::Converged;
            break;
        }
    }
    fit.parameters.assign(p.data(), p.data() + p.size());
    fit.sum_of_squares = sum;
    if (fit.degrees_of_freedom > 0)
        fit.residual_sd = std::sqrt(sum / fit.degrees_of_freedom);
    if (j.allFinite())
        fit.inverse_information = inverseInformation(j);
    return fit;
}

} // namespace

LeastSquaresFit fitLeastSquares(std::span<const double> start, std::size_t residual_count, const Residuals& residuals,
    const LeastSquaresOptions& options)
{
    auto fit = descend(start, residual_count, residuals, options, Scaling::Columns);
    if (fit.end == FitEnd::BadStart || (fit.ok() && fit.inverse_information.size() > 0))
        return fit;
    // It ran off to where a parameter no longer matters: once more, with steps in proportion to the parameters.
    auto other = descend(start, residual_count, residuals, options, Scaling::Values);
    return other.sum_of_squares < fit.sum_of_squares * (1 - 1e-9) ? other : fit;
}

LinearFit fitLinear(const Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>& design,
    std::span<const double> observed, std::span<const double> weights)
{
    using LongMatrix = Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>;
    using LongVector = Eigen::Matrix<long double, Eigen::Dynamic, 1>;
    LinearFit fit;
    const Eigen::Index rows = design.rows(), columns = design.cols();
    fit.degrees_of_freedom = int(rows - columns);
    if (rows < columns || columns == 0 || rows != Eigen::Index(observed.size()))
        return fit;
    LongVector right(rows);
    LongMatrix a = design;
    for (Eigen::Index i = 0; i < rows; ++i) {
        const long double root = weights.empty() ? 1.0L : std::sqrt(static_cast<long double>(weights[std::size_t(i)]));
        right[i] = root * static_cast<long double>(observed[std::size_t(i)]);
        a.row(i) *= root;
    }
    LongVector shrink(columns);
    for (Eigen::Index k = 0; k < columns; ++k) {
        const long double size = a.col(k).norm();
        if (!(size > 0))
            return fit;
        shrink[k] = 1.0L / size;
        a.col(k) *= shrink[k];
    }
    Eigen::ColPivHouseholderQR<LongMatrix> qr(a);
    qr.setThreshold(1e-17L);
    fit.full_rank = qr.rank() == columns;
    if (!fit.full_rank)
        return fit;
    LongVector solution = qr.solve(right);
    solution += qr.solve(LongVector(right - a * solution)); // one step of refinement
    const LongVector left = right - a * solution;
    fit.sum_of_squares = double(left.squaredNorm());
    const LongMatrix upper = qr.matrixR().topLeftCorner(columns, columns).triangularView<Eigen::Upper>();
    const LongMatrix inverse = upper.triangularView<Eigen::Upper>().solve(LongMatrix::Identity(columns, columns));
    const LongMatrix turned = shrink.asDiagonal() * LongMatrix(qr.colsPermutation() * inverse);
    fit.inverse_information = (turned * turned.transpose()).cast<double>();
    for (Eigen::Index k = 0; k < columns; ++k)
        fit.coefficients.push_back(double(solution[k] * shrink[k]));
    if (fit.degrees_of_freedom > 0) {
        fit.residual_sd = std::sqrt(fit.sum_of_squares / fit.degrees_of_freedom);
        for (Eigen::Index k = 0; k < columns; ++k)
            fit.standard_errors.push_back(fit.residual_sd * std::sqrt(fit.inverse_information(k, k)));
    }
    return fit;
}

} // namespace washfast::stats
