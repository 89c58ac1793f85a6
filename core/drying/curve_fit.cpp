// Least squares for the drying curves.
#include "core/drying/curve.h"

#include "core/stats/least_squares.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace washfast::drying {

namespace {

constexpr double unknownVariance = 1e12; // as (1e-12)^-1: the weighings say nothing of it
constexpr size_t enoughForShape = 5; // weighings
constexpr double statedErrorWeight = 4.0; // degrees of freedom with which the stated error of a weighing counts
constexpr double shapeLog = 0.2231435513142098; // ln 1.25: how far n may lie from 1 when it cannot be told

/// What is assumed of the second parameter before looking, weakly: mean and standard deviation of ln n or logit c.
/// It keeps the fit finite when the weighings say nothing of the shape.
struct Prior {
    double mean, sd;
};

} // namespace

class CurveFitter {
public:
    CurveFitter(std::vector<Weighed> points, double weighing_sd)
        : points_(std::move(points))
        , weighing_sd_(weighing_sd)
    {
    }

    struct Fit {
        Curve::Shape shape;
        double squares = 0.0; // of the residuals, without the prior
        std::array<double, 3> inverse {}; // of J'J
    };

    /// Both parameters free, or only the first.
    [[nodiscard]] Fit fit(Curve::Shape start, bool shape_free) const
    {
        const Problem problem { *this, start, shape_free };
        const std::span<const double> from(start.p.data(), shape_free ? 2 : 1);
        const auto least = stats::fitLeastSquares(from, problem.values(),
            [&](std::span<const double> x, std::span<double> residuals) { problem.residuals(x, residuals); });
        Fit found { problem.at(least.parameters), 0.0, {} };
        for (const auto& point : points_)
            found.squares += std::pow(Curve::moisture(found.shape, point.minutes) - point.moisture_pct, 2.0);
        if (const auto& inverse = least.inverse_information; inverse.size() > 0)
            found.inverse = { inverse(0, 0), shape_free ? inverse(0, 1) : 0.0, shape_free ? inverse(1, 1) : 0.0 };
        else
            found.inverse = { unknownVariance, 0.0, shape_free ? unknownVariance : 0.0 };
        return found;
    }

    [[nodiscard]] Curve::Shape start(CurveModel model, double residual) const
    {
        // Mean of the times that the first-order curve would need, from points that are neither wet nor dry.
        double sum = 0.0;
        int n = 0;
        for (const auto& point : points_) {
            const double ratio = std::clamp((point.moisture_pct - residual) / (100.0 - residual), 0.02, 0.98);
            sum += std::log(point.minutes / -std::log(ratio));
            ++n;
        }
        const double log_time = sum / n;
        if (model == CurveModel::TwoStage)
            return { model, { -log_time - 0.2, 0.0 }, residual, 1.0 };
        return { model, { log_time, model == CurveModel::Page ? pagePrior.mean : 0.0 }, residual, 1.0 };
    }

    [[nodiscard]] const std::vector<Weighed>& points() const { return points_; }

private:
    static constexpr Prior pagePrior { 0.14, 0.5 }; // n = 1.15, within 0.4 to 3.1
    static constexpr Prior stagePrior { 0.0, 1.5 }; // c = 0.5, within 0.05 to 0.95

    struct Problem {
        const CurveFitter& fitter;
        Curve::Shape start;
        bool shape_free;

        [[nodiscard]] std::size_t values() const { return fitter.points_.size() + (shape_free ? 1 : 0); }

        [[nodiscard]] Curve::Shape at(std::span<const double> x) const
        {
            Curve::Shape shape = start;
            shape.p[0] = std::clamp(x[0], -12.0, 12.0);
            if (shape_free)
                shape.p[1] = std::clamp(x[1], -4.0, 4.0);
            return shape;
        }

        void residuals(std::span<const double> x, std::span<double> out) const
        {
            const auto shape = at(x);
            std::size_t i = 0;
            for (const auto& point : fitter.points_)
                out[i++] = Curve::moisture(shape, point.minutes) - point.moisture_pct;
            if (shape_free) {
                const auto& prior = shape.model == CurveModel::TwoStage ? stagePrior : pagePrior;
                out[i] = fitter.weighing_sd_ * (x[1] - prior.mean) / prior.sd;
            }
        }
    };

    std::vector<Weighed> points_;
    double weighing_sd_;
};

std::variant<Curve, CurveTrouble> fitCurve(std::span<const Weighed> given, const CurveOptions& options)
{
    std::vector<Weighed> points;
    std::copy_if(given.begin(), given.end(), std::back_inserter(points),
        [](const Weighed& point) { return point.minutes > 0 && std::isfinite(point.moisture_pct); });
    if (points.empty())
        return CurveTrouble::NoWeighing;
    std::sort(points.begin(), points.end(), [](const auto& a, const auto& b) { return a.minutes < b.minutes; });

    const double weighing_sd = options.weighing_within_pct / 1.96;
    const double residual = options.residual_pct;
    const auto driest = std::min_element(
        points.begin(), points.end(), [](const auto& a, const auto& b) { return a.moisture_pct < b.moisture_pct; });
    if (driest->moisture_pct > 100.0 - weighing_sd)
        return CurveTrouble::NotDrying;

    Curve curve;
    curve.weighings_ = int(points.size());
    curve.last_min_ = points.back().minutes;
    // Dry at every weighing: take the slowest drying that agrees with the first.
    const double still_told = residual + std::max(1.0, weighing_sd);
    curve.rate_known_ = std::any_of(
        points.begin(), points.end(), [&](const Weighed& point) { return point.moisture_pct > still_told; });
    if (!curve.rate_known_)
        points = { { points.front().minutes, still_told } };

    const CurveFitter fitter(points, weighing_sd);
    const bool shape_free = points.size() >= enoughForShape;
    auto model = shape_free ? CurveModel::Page : CurveModel::FirstOrder;
    auto best = fitter.fit(fitter.start(model, residual), shape_free);
    const auto count = double(points.size());
    if (shape_free) {
        auto other = fitter.fit(fitter.start(CurveModel::TwoStage, residual), true);
        // Akaike weights (Burnham and Anderson, Model Selection and Multimodel Inference, 2002): both have two
        // parameters, so only the likelihoods differ.
        const double floor = 0.05 * weighing_sd * weighing_sd;
        const auto loss = [&](const CurveFitter::Fit& fit) { return count * std::log(fit.squares / count + floor); };
        if (other.squares < best.squares)
            std::swap(best, other);
        model = best.shape.model;
        const double relative = std::exp(-0.5 * (loss(other) - loss(best)));
        other.shape.weight = relative / (1.0 + relative);
        curve.others_.push_back(other.shape);
    } else {
        auto page = fitter.start(CurveModel::Page, residual);
        page.p[1] = shapeLog;
        curve.others_.push_back(fitter.fit(page, false).shape);
    }
    auto wetter = best.shape;
    wetter.residual_pct += options.residual_within_pct / 1.96;
    curve.others_.push_back(fitter.fit(wetter, shape_free).shape);

    const double freedom = count - (shape_free ? 2.0 : 1.0);
    const double pooled
        = (statedErrorWeight * weighing_sd * weighing_sd + best.squares) / (statedErrorWeight + freedom);
    curve.shape_ = best.shape;
    for (size_t i = 0; i < 3; ++i)
        curve.covariance_[i] = best.inverse[i] * pooled;
    curve.quantile_
        = boost::math::quantile(boost::math::students_t(statedErrorWeight + freedom), 0.5 + options.confidence / 2.0);
    return curve;
}

} // namespace washfast::drying
