#include "core/drying/curve.h"
#include "core/drying/never.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::drying {

namespace {

constexpr double step = 1e-4; // of a logarithm, for slopes

double logistic(double x)
{
    return 1.0 / (1.0 + std::exp(-x));
}

/// Page's curve in the modified form, with p = (ln tau, ln n); first order is n = 1.
double pageRatio(const std::array<double, 2>& p, double minutes)
{
    return std::exp(-std::pow(minutes / std::exp(p[0]), std::exp(p[1])));
}

/// p = (ln r, logit c).
double twoStageRatio(const std::array<double, 2>& p, double minutes)
{
    const double rate = std::exp(p[0]);
    const double critical = logistic(p[1]);
    const double bend = (1.0 - critical) / rate;
    return minutes <= bend ? 1.0 - rate * minutes : critical * std::exp(-rate / critical * (minutes - bend));
}

} // namespace

double Curve::ratio(const Shape& shape, double minutes)
{
    return shape.model == CurveModel::TwoStage ? twoStageRatio(shape.p, minutes) : pageRatio(shape.p, minutes);
}

double Curve::moisture(const Shape& shape, double minutes)
{
    return shape.residual_pct + (100.0 - shape.residual_pct) * ratio(shape, minutes);
}

double Curve::minutesOf(const Shape& shape, double moisture_pct)
{
    if (moisture_pct >= 100.0)
        return 0.0;
    const double wanted = (moisture_pct - shape.residual_pct) / (100.0 - shape.residual_pct);
    if (wanted <= 0.0)
        return never;
    if (shape.model != CurveModel::TwoStage)
        return std::exp(shape.p[0]) * std::pow(-std::log(wanted), std::exp(-shape.p[1]));
    const double rate = std::exp(shape.p[0]);
    const double critical = logistic(shape.p[1]);
    if (wanted >= critical)
        return (1.0 - wanted) / rate;
    return (1.0 - critical) / rate - critical / rate * std::log(wanted / critical);
}

template <typename Value> double Curve::variance(const Value& value) const
{
    std::array<double, 2> slope {};
    for (size_t i = 0; i < 2; ++i) {
        Shape more = shape_, less = shape_;
        more.p[i] += step;
        less.p[i] -= step;
        slope[i] = (value(more) - value(less)) / (2.0 * step);
    }
    double sum = slope[0] * slope[0] * covariance_[0] + 2.0 * slope[0] * slope[1] * covariance_[1]
        + slope[1] * slope[1] * covariance_[2];
    const double here = value(shape_);
    for (const auto& other : others_)
        sum += other.weight * std::pow(value(other) - here, 2.0);
    return std::max(0.0, sum);
}

Curve Curve::ofRate(double rate_per_min, double log_sd, const CurveOptions& options)
{
    Curve curve;
    curve.shape_ = { CurveModel::FirstOrder, { -std::log(rate_per_min), 0.0 }, options.residual_pct, 1.0 };
    curve.covariance_ = { log_sd * log_sd, 0.0, 0.0 };
    Shape wetter = curve.shape_;
    wetter.residual_pct += options.residual_within_pct / 1.96;
    curve.others_.push_back(wetter);
    return curve;
}

Bracket Curve::at(double minutes) const
{
    const double t = std::max(0.0, minutes) / time_factor_;
    const double likely = moisture(shape_, t);
    double spread = variance([t](const Shape& shape) { return moisture(shape, t); });
    const double by_time
        = (moisture(shape_, t * std::exp(step)) - moisture(shape_, t * std::exp(-step))) / (2.0 * step);
    spread += std::pow(by_time * time_log_sd_, 2.0);
    const double half = quantile_ * std::sqrt(spread);
    const double inside = std::clamp(likely, 0.0, 100.0);
    return { std::max(0.0, likely - half), inside, std::min(100.0, likely + half) };
}

Bracket Curve::minutesUntil(double moisture_pct) const
{
    const double likely = minutesOf(shape_, moisture_pct);
    if (likely <= 0.0)
        return { 0.0, 0.0, 0.0 };
    if (std::isinf(likely)) { // perhaps the residual moisture is less than assumed
        return { never, never, never };
    }
    const auto logTime = [&](const Shape& shape) { return std::log(minutesOf(shape, moisture_pct)); };
    const bool maybe_never = std::any_of(
        others_.begin(), others_.end(), [&](const Shape& other) { return std::isinf(minutesOf(other, moisture_pct)); });
    if (maybe_never) {
        Curve without = *this;
        std::erase_if(without.others_, [&](const Shape& other) { return std::isinf(minutesOf(other, moisture_pct)); });
        auto bracket = without.minutesUntil(moisture_pct);
        bracket.high = never;
        return bracket;
    }
    const double half = quantile_ * std::sqrt(variance(logTime) + time_log_sd_ * time_log_sd_);
    const double time = likely * time_factor_;
    return { time * std::exp(-half), time, time * std::exp(half) };
}

Bracket Curve::minutesLeft(double moisture_pct, double elapsed_min) const
{
    const auto whole = minutesUntil(moisture_pct);
    const double elapsed = std::max(0.0, elapsed_min);
    return { std::max(0.0, whole.low - elapsed), std::max(0.0, whole.likely - elapsed),
        std::max(0.0, whole.high - elapsed) };
}

double Curve::rate_per_min() const
{
    const double at = shape_.residual_pct + (100.0 - shape_.residual_pct) * std::exp(-1.0);
    return 1.0 / (minutesOf(shape_, at) * time_factor_);
}

std::array<double, 2> Curve::parameters() const
{
    const double first = std::exp(shape_.p[0]);
    switch (shape_.model) {
    case CurveModel::FirstOrder:
        return { 1.0 / (first * time_factor_), 1.0 };
    case CurveModel::Page:
        return { first * time_factor_, std::exp(shape_.p[1]) };
    case CurveModel::TwoStage:
        break;
    }
    return { first / time_factor_, logistic(shape_.p[1]) };
}

Curve Curve::inOtherAir(double fitted_deficit_kpa, double other_deficit_kpa, double power, double power_within) const
{
    const double logarithm = std::log(fitted_deficit_kpa / other_deficit_kpa);
    Curve curve = *this;
    curve.time_factor_ *= std::exp(power * logarithm);
    curve.time_log_sd_ = std::hypot(time_log_sd_, power_within / 1.96 * logarithm);
    curve.last_min_ *= std::exp(power * logarithm);
    return curve;
}

} // namespace washfast::drying
