#include "core/density/pooled_curve.h"

#include "core/density/refuse.h"
#include "core/density/words.h"
#include "core/stats/least_squares.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace washfast::density {

namespace {

constexpr double leastShiftSd = 1e-4; // no difference between prints
constexpr double leastResidualSd = 1e-5;
constexpr int mostRounds = 300;

double student(double degrees_of_freedom)
{
    return boost::math::quantile(boost::math::students_t(std::max(1.0, degrees_of_freedom)), 0.975);
}

/// The model with its two variances; with `values` the shift also goes along a line with them.
class Mixed {
public:
    Mixed(const std::vector<PooledPoint>& points, int prints, std::vector<double> values)
        : points_(points)
        , prints_(size_t(prints))
        , values_(std::move(values))
        , fixed_(curveParameters + (values_.empty() ? 0 : 1))
    {
    }
    /// False when nothing fits.
    bool run(const Logistic& start, double residual_sd);

    std::vector<double> parameters; // the curve, the line's slope if there is one, the shifts
    stats::Matrix covariance;
    double shift_sd = 0.1, residual_sd = 0;
    double effective = 0; // number of free shifts that the prints amount to
    double left = 0; // degrees of freedom within prints

    [[nodiscard]] size_t fixed() const { return fixed_; }

private:
    [[nodiscard]] double shiftOf(std::span<const double> p, size_t print) const
    {
        return p[fixed_ + print] + (values_.empty() ? 0 : p[curveParameters] * values_[print]);
    }
    void solve();

    const std::vector<PooledPoint>& points_;
    size_t prints_;
    std::vector<double> values_;
    size_t fixed_;
    stats::LeastSquaresFit fit_;
};

void Mixed::solve()
{
    const size_t n = points_.size();
    stats::LeastSquaresOptions options;
    options.iterations = 200;
    options.step_tolerance = 1e-11;
    options.jacobian = [&](std::span<const double> p, stats::Matrix& j) {
        j.setZero();
        const Logistic curve { p[DMin], p[DMax], p[Midpoint], p[Slope] };
        for (size_t i = 0; i < n; ++i) {
            const size_t print = size_t(points_[i].print);
            const double x = points_[i].log_h - shiftOf(p, print);
            const double q = 1 / (1 + std::exp(-curve.slope * (x - curve.midpoint)));
            const double bend = (curve.d_max - curve.d_min) * q * (1 - q);
            const auto row = Eigen::Index(i);
            j(row, DMin) = -(1 - q) / residual_sd;
            j(row, DMax) = -q / residual_sd;
            j(row, Midpoint) = bend * curve.slope / residual_sd;
            j(row, Slope) = -bend * (x - curve.midpoint) / residual_sd;
            if (!values_.empty())
                j(row, curveParameters) = bend * curve.slope * values_[print] / residual_sd;
            j(row, Eigen::Index(fixed_ + print)) = bend * curve.slope / residual_sd;
        }
        for (size_t k = 0; k < prints_; ++k)
            j(Eigen::Index(n + k), Eigen::Index(fixed_ + k)) = 1 / shift_sd;
    };
    // Residuals of the steps in units of their sd, then the shifts in units of theirs.
    const auto residuals = [&](std::span<const double> p, std::span<double> r) {
        const Logistic curve { p[DMin], p[DMax], p[Midpoint], p[Slope] };
        for (size_t i = 0; i < n; ++i)
            r[i] = (points_[i].density - curve.at(points_[i].log_h - shiftOf(p, size_t(points_[i].print))))
                / residual_sd;
        for (size_t k = 0; k < prints_; ++k)
            r[n + k] = p[fixed_ + k] / shift_sd;
    };
    fit_ = stats::fitLeastSquares(parameters, n + prints_, residuals, options);
}

bool Mixed::run(const Logistic& start, double first_residual_sd)
{
    parameters = { start.d_min, start.d_max, start.midpoint, start.slope };
    parameters.resize(fixed_ + prints_, 0.0);
    residual_sd = std::max(leastResidualSd, first_residual_sd);
    const size_t n = points_.size();
    for (int round = 0; round < mostRounds; ++round) {
        solve();
        if (!fit_.ok() || fit_.inverse_information.size() == 0)
            return false;
        parameters = fit_.parameters;
        covariance = fit_.inverse_information;
        double shifts = 0, squares = 0;
        effective = 0;
        for (size_t k = 0; k < prints_; ++k) {
            const double shift = parameters[fixed_ + k];
            const auto at = Eigen::Index(fixed_ + k);
            shifts += shift * shift;
            effective += 1 - covariance(at, at) / (shift_sd * shift_sd);
        }
        const Logistic curve { parameters[DMin], parameters[DMax], parameters[Midpoint], parameters[Slope] };
        for (const auto& point : points_)
            squares += std::pow(point.density - curve.at(point.log_h - shiftOf(parameters, size_t(point.print))), 2);
        effective = std::max(effective, 1e-9);
        left = std::max(1.0, double(n) - double(fixed_) - effective);
        const double new_shift_sd = std::clamp(std::sqrt(shifts / effective), leastShiftSd, 10.0);
        const double new_residual_sd = std::max(leastResidualSd, std::sqrt(squares / left));
        const bool settled = std::abs(new_shift_sd - shift_sd) < 1e-6 * shift_sd
            && std::abs(new_residual_sd - residual_sd) < 1e-6 * residual_sd;
        if (settled)
            break;
        shift_sd = new_shift_sd;
        residual_sd = new_residual_sd;
    }
    return true;
}

/// Where to begin: the plain curve through everything, else the middle of the curves of single prints.
std::optional<std::pair<Logistic, double>> beginning(const std::vector<PooledPoint>& points, int prints)
{
    const auto plain = [&](int print) {
        CurveRequest request;
        request.intervals = false;
        for (const auto& point : points)
            if (print < 0 || point.print == print)
                request.points.push_back({ point.log_h, point.density, 1 });
        return fitCurve(request);
    };
    if (const auto all = plain(-1); all && all->model == CurveModel::Logistic && all->left_out.empty())
        return std::pair(all->curve, all->residual_sd / 2);
    std::vector<CurveFit> single;
    for (int print = 0; print < prints; ++print)
        if (auto fit = plain(print); fit && fit->model == CurveModel::Logistic)
            single.push_back(std::move(fit).value());
    if (single.empty())
        return {};
    const auto middle = [&](auto pick) {
        std::vector<double> values;
        for (const auto& fit : single)
            values.push_back(pick(fit));
        std::sort(values.begin(), values.end());
        return values[values.size() / 2];
    };
    return std::pair(Logistic { middle([](const CurveFit& f) { return f.curve.d_min; }),
                         middle([](const CurveFit& f) { return f.curve.d_max; }),
                         middle([](const CurveFit& f) { return f.curve.midpoint; }),
                         middle([](const CurveFit& f) { return f.curve.slope; }) },
        middle([](const CurveFit& f) { return f.residual_sd; }));
}

/// A common curve of which the ends or the slope are a guess is none.
bool isLoose(const PooledCurve& pooled)
{
    const double range = pooled.curve.d_max - pooled.curve.d_min;
    const auto error = [&](int which) { return std::sqrt(std::max(0.0, pooled.covariance(which, which))); };
    return !(range > 0) || !(pooled.curve.slope > 0) || error(DMin) > 0.5 * range || error(DMax) > 0.5 * range
        || error(Slope) > 0.5 * pooled.curve.slope || pooled.curve.midpoint <= pooled.lowest
        || pooled.curve.midpoint >= pooled.highest;
}

} // namespace

Interval PooledCurve::nextPrint(const CurveTarget& target) const
{
    if (!target.log_h || covariance.size() == 0)
        return {};
    const double gradient = curve.gradientAt(*target.log_h);
    const double q = 1 / (1 + std::exp(-curve.slope * (*target.log_h - curve.midpoint)));
    const double bend = (curve.d_max - curve.d_min) * q * (1 - q);
    const stats::Vector slopes { { 1 - q, q, -bend * curve.slope, bend * (*target.log_h - curve.midpoint) } };
    const double own = slopes.dot(stats::product(covariance, slopes)) / (gradient * gradient);
    const double half = student(double(prints() - 1)) * std::sqrt(own + shift_sd * shift_sd);
    return { *target.log_h - half, *target.log_h + half };
}

Result<PooledCurve> poolCurves(const std::vector<PooledPoint>& points)
{
    int prints = 0;
    for (const auto& point : points) {
        if (point.print < 0 || point.print >= mostPooledPrints)
            return refuse(QT_TRANSLATE_NOOP("Density", "At most 100 prints can be taken together."));
        if (!std::isfinite(point.log_h) || !std::isfinite(point.density))
            return refuse(QT_TRANSLATE_NOOP("Density", "Every step needs an exposure and a density."));
        prints = std::max(prints, point.print + 1);
    }
    std::vector<int> steps(size_t(prints), 0);
    for (const auto& point : points)
        ++steps[size_t(point.print)];
    if (prints < 2 || std::count(steps.begin(), steps.end(), 0) > 0)
        return refuse(QT_TRANSLATE_NOOP("Density", "Pooling needs the steps of at least two prints."));
    const auto start = beginning(points, prints);
    if (!start)
        return refuse(
            QT_TRANSLATE_NOOP("Density", "Neither one of these prints nor all together give an S-shaped curve."));
    Mixed model(points, prints, {});
    if (!model.run(start->first, start->second))
        return refuse(QT_TRANSLATE_NOOP("Density", "No common curve fits these prints."));
    PooledCurve out;
    const auto& p = model.parameters;
    out.curve = { p[DMin], p[DMax], p[Midpoint], p[Slope] };
    for (size_t k = 0; k < size_t(prints); ++k) {
        const auto at = Eigen::Index(model.fixed() + k);
        out.shifts.push_back(p[model.fixed() + k]);
        out.shift_errors.push_back(std::sqrt(std::max(0.0, model.covariance(at, at))));
    }
    out.covariance = model.covariance.topLeftCorner(curveParameters, curveParameters);
    out.residual_sd = model.residual_sd;
    out.degrees_of_freedom = std::max(1, int(std::lround(model.left)));
    out.shift_sd = model.shift_sd;
    if (model.effective > 0.2 && model.shift_sd > leastShiftSd) {
        const boost::math::chi_squared spread(model.effective);
        out.shift_sd_95 = { model.shift_sd * std::sqrt(model.effective / boost::math::quantile(spread, 0.975)),
            model.shift_sd * std::sqrt(model.effective / boost::math::quantile(spread, 0.025)) };
    }
    out.lowest = HUGE_VAL;
    out.highest = -HUGE_VAL;
    for (const auto& point : points) {
        const double x = point.log_h - out.shifts[size_t(point.print)];
        out.lowest = std::min(out.lowest, x);
        out.highest = std::max(out.highest, x);
    }
    if (isLoose(out))
        return refuse(QT_TRANSLATE_NOOP("Density", "The prints together do not pin an S-shaped curve down."));
    return out;
}

CurveFit commonCurve(
    const PooledCurve& pooled, const std::vector<PooledPoint>& points, const std::vector<double>& targets)
{
    CurveFit fit;
    for (const auto& point : points)
        fit.used.push_back({ point.log_h - pooled.shifts[size_t(point.print)], point.density, 1 });
    std::sort(
        fit.used.begin(), fit.used.end(), [](const CurvePoint& a, const CurvePoint& b) { return a.log_h < b.log_h; });
    fit.curve = pooled.curve;
    fit.residual_sd = pooled.residual_sd;
    fit.degrees_of_freedom = pooled.degrees_of_freedom;
    fit.sum_of_squares = pooled.residual_sd * pooled.residual_sd * pooled.degrees_of_freedom;
    fit.covariance = pooled.covariance;
    fit.free = { DMin, DMax, Midpoint, Slope };
    fit.shift_variance = pooled.shift_sd * pooled.shift_sd / pooled.prints();
    fit.shift_degrees_of_freedom = pooled.prints() - 1;
    fit.max_gradient = pooled.curve.maxGradient();
    const double t = student(pooled.degrees_of_freedom);
    const std::array<double, curveParameters> values { pooled.curve.d_min, pooled.curve.d_max, pooled.curve.midpoint,
        pooled.curve.slope };
    for (size_t k = 0; k < curveParameters; ++k) {
        const double error = std::sqrt(std::max(0.0, pooled.covariance(Eigen::Index(k), Eigen::Index(k))));
        // The midpoint is where the prints differ.
        const double half = (k == Midpoint ? student(pooled.prints() - 1) : t) * error;
        fit.standard_errors[k] = error;
        fit.intervals[k] = { values[k] - half, values[k] + half };
    }
    fit.toe_log_h = fit.exposureFor(fit.curve.d_min + toeAboveBase);
    fit.shoulder_log_h = fit.exposureFor(fit.curve.d_min + shoulderShare * (fit.curve.d_max - fit.curve.d_min));
    for (const double density : targets) {
        CurveTarget target { density, fit.exposureFor(density), {}, {} };
        if (target.log_h) {
            const auto band = fit.bandAt(*target.log_h);
            const double half = (*band.high - *band.low) / 2 / fit.curve.gradientAt(*target.log_h);
            target.log_h_low = *target.log_h - half;
            target.log_h_high = *target.log_h + half;
        } else {
            fit.warnings << Words::tr(
                "A density of %1 is not reached within these steps; nothing is guessed beyond them.")
                                .arg(density);
        }
        fit.targets.push_back(target);
    }
    return fit;
}

std::optional<Drift> driftWith(
    const PooledCurve& pooled, const std::vector<PooledPoint>& points, const std::vector<std::optional<double>>& values)
{
    std::vector<int> number(pooled.shifts.size(), -1);
    std::vector<double> known;
    for (size_t k = 0; k < std::min(values.size(), pooled.shifts.size()); ++k)
        if (values[k]) {
            number[k] = int(known.size());
            known.push_back(*values[k]);
        }
    if (known.size() < 3)
        return {};
    double mean = 0, spread = 0;
    for (const double value : known)
        mean += value / double(known.size());
    for (const double value : known)
        spread = std::max(spread, std::abs(value - mean));
    if (spread < 1e-9)
        return {};
    std::vector<PooledPoint> some;
    for (const auto& point : points)
        if (const int at = number[size_t(point.print)]; at >= 0)
            some.push_back({ point.log_h, point.density, at });
    auto scaled = known; // so that the slope is of the order of the shifts
    for (double& value : scaled)
        value = (value - mean) / spread;
    Mixed model(some, int(known.size()), scaled);
    if (!model.run(pooled.curve, pooled.residual_sd))
        return {};
    Drift drift;
    drift.prints = int(known.size());
    drift.middle = mean;
    drift.at_middle = model.parameters[Midpoint] - pooled.curve.midpoint;
    drift.per_unit = model.parameters[curveParameters] / spread;
    drift.standard_error = std::sqrt(std::max(0.0, model.covariance(curveParameters, curveParameters))) / spread;
    const double half = student(double(known.size()) - 2) * drift.standard_error;
    drift.low = drift.per_unit - half;
    drift.high = drift.per_unit + half;
    return drift;
}

} // namespace washfast::density
