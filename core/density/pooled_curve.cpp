#include "core/density/pooled_curve.h"

#include "core/stats/least_squares.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::density {

namespace {

Error refuse(const char* text)
{
    return { Trouble::BadInput, QCoreApplication::translate("Density", text), {} };
}

} // namespace

Result<PooledCurve> poolCurves(const std::vector<PooledPoint>& points)
{
    int prints = 0;
    CurveRequest alone;
    alone.intervals = false;
    for (const auto& point : points) {
        if (point.print < 0 || point.print > 10'000)
            return refuse(QT_TRANSLATE_NOOP("Density", "A print's number is out of range."));
        prints = std::max(prints, point.print + 1);
        alone.points.push_back({ point.log_h, point.density, 1 });
    }
    if (prints < 2)
        return refuse(QT_TRANSLATE_NOOP("Density", "Pooling needs the steps of at least two prints."));
    const auto start = fitCurve(alone);
    if (!start)
        return start.error();
    if (start->model != CurveModel::Logistic)
        return Error { Trouble::BadInput, start->warnings.value(0), {} };

    const size_t n = points.size(), extra = size_t(prints);
    PooledCurve out;
    out.lowest = start->lowest();
    out.highest = start->highest();
    std::vector<double> parameters { start->curve.d_min, start->curve.d_max, start->curve.midpoint,
        start->curve.slope };
    parameters.resize(4 + extra, 0.0);
    double sigma = std::max(1e-4, start->residual_sd / 2), tau = 0.1;
    stats::LeastSquaresFit fit;
    for (int round = 0; round < 200; ++round) {
        // Residuals of the steps in units of sigma, and of the shifts in units of tau.
        fit = stats::fitLeastSquares(parameters, n + extra, [&](std::span<const double> p, std::span<double> r) {
            const Logistic curve { p[0], p[1], p[2], p[3] };
            for (size_t i = 0; i < n; ++i)
                r[i] = (points[i].density - curve.at(points[i].log_h - p[4 + size_t(points[i].print)])) / sigma;
            for (size_t k = 0; k < extra; ++k)
                r[n + k] = p[4 + k] / tau;
        });
        if (!fit.ok() || fit.inverse_information.size() == 0)
            return refuse(QT_TRANSLATE_NOOP("Density", "No common curve fits these prints."));
        parameters = fit.parameters;
        const auto& covariance = fit.inverse_information;
        double shifts = 0, used = 4;
        for (size_t k = 0; k < extra; ++k) {
            const double variance = covariance(Eigen::Index(4 + k), Eigen::Index(4 + k));
            shifts += parameters[4 + k] * parameters[4 + k] + variance;
            used += 1 - variance / (tau * tau); // how much of a parameter this shift is
        }
        double squares = 0;
        const Logistic curve { parameters[0], parameters[1], parameters[2], parameters[3] };
        for (const auto& point : points)
            squares += std::pow(point.density - curve.at(point.log_h - parameters[4 + size_t(point.print)]), 2);
        const double new_tau = std::max(1e-4, std::sqrt(shifts / double(prints)));
        const double new_sigma = std::max(1e-5, std::sqrt(squares / std::max(1.0, double(n) - used)));
        const bool settled = std::abs(new_tau - tau) < 1e-5 * tau && std::abs(new_sigma - sigma) < 1e-5 * sigma;
        tau = new_tau;
        sigma = new_sigma;
        if (settled)
            break;
    }
    out.curve = { parameters[0], parameters[1], parameters[2], parameters[3] };
    for (size_t k = 0; k < extra; ++k) {
        out.shifts.push_back(parameters[4 + k]);
        out.shift_errors.push_back(std::sqrt(fit.inverse_information(Eigen::Index(4 + k), Eigen::Index(4 + k))));
    }
    out.shift_sd = tau;
    out.residual_sd = sigma;
    return out;
}

std::optional<Drift> driftWith(const PooledCurve& pooled, const std::vector<std::optional<double>>& values)
{
    std::vector<double> x, y;
    for (size_t i = 0; i < std::min(values.size(), pooled.shifts.size()); ++i)
        if (values[i]) {
            x.push_back(*values[i]);
            y.push_back(pooled.shifts[i]);
        }
    if (x.size() < 3)
        return {};
    Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic> design(Eigen::Index(x.size()), 2);
    for (size_t i = 0; i < x.size(); ++i)
        design.row(Eigen::Index(i)) << 1.0L, static_cast<long double>(x[i]);
    const auto line = stats::fitLinear(design, y);
    if (!line.full_rank)
        return {};
    return Drift { line.coefficients[1], line.standard_errors[1], int(x.size()) };
}

} // namespace washfast::density
