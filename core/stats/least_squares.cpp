#include "core/stats/least_squares.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace washfast::stats {

namespace {

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

/// The step within a radius, in units of `scale`, that lessens |r + J step|: (J'J + damping D'D) step = -J'r, with the
/// damping that makes it as long as the radius. Solved along the singular axes of J D^-1, so that a damping costs only
/// a few products.
class BoundedStep {
public:
    BoundedStep(const Matrix& j, const Vector& r, const Vector& scale)
        : scale_(scale)
    {
        const Axes axes = axesOf(j * scale.cwiseInverse().asDiagonal(), r);
        sizes_ = axes.values;
        along_ = axes.along;
        axes_ = axes.right;
    }

    struct Step {
        Vector step;
        double length = 0.0; // in units of the scale
        bool whole = false; // the radius did not hold it back
    };

    [[nodiscard]] Step within(double radius) const
    {
        const double largest = sizes_.size() > 0 ? sizes_[0] : 0.0;
        if (!(largest > 0))
            return { Vector::Zero(scale_.size()), 0.0, true };
        const auto enough = [&](double length) { return length <= (1 + slack) * radius; };
        // Undamped, or damped only by rounding where a singular value is all but zero.
        for (const double damping : { 0.0, 1e-32 * largest * largest })
            if (const Vector turned = damped(damping); turned.allFinite() && enough(turned.norm()))
                return made(turned, true);
        double low = std::log(1e-32) + 2 * std::log(largest);
        double high = std::log(along_.norm() * largest / radius) + slack; // there the step is shorter than the radius
        for (int k = 0; k < 100; ++k) {
            const double middle = (low + high) / 2, length = damped(std::exp(middle)).norm();
            if (length >= (1 - slack) * radius && enough(length))
                return made(damped(std::exp(middle)), false);
            (length > radius ? low : high) = middle;
        }
        return made(damped(std::exp(high)), false);
    }

private:
    static constexpr double slack = 0.1; // as in More: the radius need not be met closely

    /// The step along the singular axes.
    [[nodiscard]] Vector damped(double damping) const
    {
        Vector turned(sizes_.size());
        for (Eigen::Index k = 0; k < turned.size(); ++k)
            turned[k]
                = damping > 0 ? -sizes_[k] * along_[k] / (sizes_[k] * sizes_[k] + damping) : -along_[k] / sizes_[k];
        return turned;
    }

    [[nodiscard]] Step made(const Vector& turned, bool whole) const
    {
        return { product(axes_, turned).cwiseQuotient(scale_), turned.norm(), whole };
    }

    Vector scale_, sizes_, along_;
    Matrix axes_;
};

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
    const auto inverse = inverseOfGram(j * shrink.asDiagonal(), 1e-12);
    return inverse ? Matrix(shrink.asDiagonal() * *inverse * shrink.asDiagonal()) : Matrix();
}

} // namespace

double LeastSquaresFit::standardError(std::size_t parameter) const
{
    const auto k = Eigen::Index(parameter);
    return residual_sd * std::sqrt(inverse_information(k, k));
}

namespace {

/// `first_share`: the first step is at most this share of the start, in units of the columns' sizes.
LeastSquaresFit descend(std::span<const double> start, std::size_t residual_count, const Residuals& residuals,
    const LeastSquaresOptions& options, double first_share)
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
    // A parameter's step is measured by the largest size that its column of the Jacobian has had.
    Vector scale;
    double radius = 0;
    const auto startHere = [&] {
        scale = j.colwise().norm().transpose();
        for (Eigen::Index k = 0; k < scale.size(); ++k)
            if (!(scale[k] > 0))
                scale[k] = 1;
        const double size = scale.cwiseProduct(p).norm();
        radius = size > 0 ? first_share * size : r.norm(); // zeros say nothing of the size of the parameters
    };
    startHere();
    std::optional<BoundedStep> bounded; // empty when the place or the scale is new
    int small_steps = 0, fresh_starts = 0;
    fit.end = FitEnd::TooManySteps;
    for (; fit.iterations < options.iterations; ++fit.iterations) {
        if (!j.allFinite())
            break;
        if (sum == 0 || steepest(j, r) < options.gradient_tolerance) {
            fit.end = FitEnd::Converged;
            break;
        }
        if (!bounded)
            bounded.emplace(j, r, scale);
        const auto [step, length, whole] = bounded->within(radius);
        const Vector tried = p + step;
        const Vector there = problem.at(tried);
        const double sum_there = squared(there);
        const double expected = sum - (r + product(j, step)).squaredNorm();
        const double gain = expected > 0 ? (sum - sum_there) / expected : (sum_there < sum ? 1.0 : -1.0);
        const double moved = (step.cwiseQuotient(p.cwiseAbs() + 1e-6 * first)).cwiseAbs().maxCoeff();
        if (!(gain > 0.25))
            radius = 0.25 * std::min(radius, length);
        else if (gain > 0.75 || whole)
            radius = 2 * length;
        const bool better = sum_there < sum && gain > 1e-4;
        if (better) {
            p = tried;
            r = there;
            sum = sum_there;
            j = problem.slopes(p, first);
            scale = scale.cwiseMax(j.colwise().norm().transpose());
            bounded.reset();
        }
        if (moved < options.step_tolerance)
            ++small_steps;
        else if (better)
            small_steps = 0;
        if (small_steps >= 2) {
            // Small steps on a slope: the scale remembers a place far away. Forget it and go on.
            if (steepest(j, r) > stillSteep && fresh_starts < 50 && j.allFinite()) {
                startHere();
                bounded.reset();
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
    auto fit = descend(start, residual_count, residuals, options, 0.1);
    if (fit.end == FitEnd::BadStart || (fit.ok() && fit.inverse_information.size() > 0))
        return fit;
    // It ran off to where a parameter no longer matters: once more, by another way.
    auto other = descend(start, residual_count, residuals, options, 1.0);
    return other.sum_of_squares < fit.sum_of_squares * (1 - 1e-9) ? other : fit;
}

} // namespace washfast::stats
