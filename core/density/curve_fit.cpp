#include "core/density/curve_fit.h"

#include <cmath>
#include <limits>

namespace washfast::density {

namespace {

/// Derivatives of the density by the four parameters.
CurveParameters slopes(const Logistic& curve, double x)
{
    const double q = 1 / (1 + std::exp(-curve.slope * (x - curve.midpoint)));
    const double bend = (curve.d_max - curve.d_min) * q * (1 - q);
    return { 1 - q, q, -bend * curve.slope, bend * (x - curve.midpoint) };
}

} // namespace

Logistic toLogistic(const CurveParameters& p)
{
    return { p[DMin], p[DMax], p[Midpoint], p[Slope] };
}

namespace {

/// `through`: the midpoint follows from the others so that the curve passes this density at this log exposure.
HeldFit fitBy(const std::vector<CurvePoint>& points, const CurveParameters& start,
    const std::array<bool, curveParameters>& held, const std::optional<std::pair<double, double>>& through)
{
    HeldFit out;
    std::vector<double> first;
    for (int k = 0; k < curveParameters; ++k)
        if (!held[size_t(k)] && !(through && k == Midpoint)) {
            out.free.push_back(k);
            first.push_back(start[size_t(k)]);
        }
    const auto whole = [&](std::span<const double> p) {
        CurveParameters all = start;
        for (size_t i = 0; i < out.free.size(); ++i)
            all[size_t(out.free[i])] = p[i];
        if (through) {
            const double q = (through->first - all[DMin]) / (all[DMax] - all[DMin]);
            all[Midpoint] = through->second - std::log(q / (1 - q)) / all[Slope]; // not a number outside 0..1
        }
        return all;
    };
    const auto residuals = [&](std::span<const double> p, std::span<double> r) {
        const auto curve = toLogistic(whole(p));
        for (size_t i = 0; i < points.size(); ++i)
            r[i] = std::sqrt(points[i].weight) * (points[i].density - curve.at(points[i].log_h));
    };
    stats::LeastSquaresOptions options;
    options.iterations = 300;
    options.step_tolerance = 1e-10;
    options.jacobian = [&](std::span<const double> p, stats::Matrix& j) {
        const auto curve = toLogistic(whole(p));
        CurveParameters moves {}; // of the midpoint with the others
        if (through) {
            const double range = curve.d_max - curve.d_min, q = (through->first - curve.d_min) / range;
            moves[DMin] = 1 / (curve.slope * range * q);
            moves[DMax] = 1 / (curve.slope * range * (1 - q));
            moves[Slope] = std::log(q / (1 - q)) / (curve.slope * curve.slope);
        }
        for (size_t i = 0; i < points.size(); ++i) {
            const auto d = slopes(curve, points[i].log_h);
            for (size_t k = 0; k < out.free.size(); ++k) {
                const auto which = size_t(out.free[k]);
                j(Eigen::Index(i), Eigen::Index(k))
                    = -std::sqrt(points[i].weight) * (d[which] + d[Midpoint] * moves[which]);
            }
        }
    };
    if (first.empty()) {
        std::vector<double> r(points.size());
        residuals({}, r);
        for (const double value : r)
            out.sum_of_squares += value * value;
        out.parameters = whole({});
        out.ok = std::isfinite(out.sum_of_squares);
        return out;
    }
    out.fit = stats::fitLeastSquares(first, points.size(), residuals, options);
    out.ok = out.fit.ok();
    out.parameters = whole(out.fit.parameters);
    out.sum_of_squares = out.fit.sum_of_squares;
    return out;
}

} // namespace

HeldFit fitHeld(
    const std::vector<CurvePoint>& points, const CurveParameters& start, const std::array<bool, curveParameters>& held)
{
    return fitBy(points, start, held, {});
}

HeldFit fitThrough(const std::vector<CurvePoint>& points, const CurveParameters& start,
    const std::array<bool, curveParameters>& held, double density, double log_h)
{
    return fitBy(points, start, held, std::pair(density, log_h));
}

Interval profileInterval(double estimate, double first_step, double allowed,
    const std::function<std::optional<double>(double value)>& sum_of_squares)
{
    const auto end = [&](double direction) -> std::optional<double> {
        double inside = estimate, step = first_step;
        double outside = estimate;
        bool found = false;
        for (int i = 0; i < 12 && !found; ++i) {
            outside = estimate + direction * step;
            const auto sum = sum_of_squares(outside);
            if (!sum)
                return {};
            if (*sum >= allowed)
                found = true;
            else
                inside = outside;
            step *= 1.7;
        }
        if (!found)
            return {};
        for (int i = 0; i < 14 && std::abs(outside - inside) > 1e-4 * first_step; ++i) {
            const double middle = (inside + outside) / 2;
            const auto sum = sum_of_squares(middle);
            if (!sum)
                return {};
            (*sum >= allowed ? outside : inside) = middle;
        }
        return (inside + outside) / 2;
    };
    return { end(-1), end(1) };
}

} // namespace washfast::density
