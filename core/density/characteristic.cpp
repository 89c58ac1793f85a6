#include "core/density/characteristic.h"

#include "core/density/curve_fit.h"
#include "core/density/words.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace washfast::density {

namespace {

constexpr int fewestSteps = 6; // for all four parameters
constexpr int fewestBeside = 2; // steps on each side of the midpoint
constexpr double turnBack = 0.03; // density by which a step has to lie below the curve to be one that turns back

/// Means of the points that share an exposure.
std::vector<CurvePoint> steps(const std::vector<CurvePoint>& points)
{
    std::vector<CurvePoint> means;
    for (const auto& point : points) {
        if (means.empty() || point.log_h - means.back().log_h > 1e-9) {
            means.push_back(point);
            continue;
        }
        auto& mean = means.back();
        const double weight = mean.weight + point.weight;
        mean.density = (mean.density * mean.weight + point.density * point.weight) / weight;
        mean.weight = weight;
    }
    return means;
}

double studentQuantile(double degrees_of_freedom)
{
    return boost::math::quantile(boost::math::students_t(std::max(1.0, degrees_of_freedom)), 0.975);
}

class Fitting {
public:
    explicit Fitting(const CurveRequest& request)
        : request_(request)
    {
        for (size_t k = 0; k < curveParameters; ++k)
            held_[k] = request.fixed[k].has_value();
    }
    Result<CurveFit> run();

private:
    void leaveOutTurningBack();
    [[nodiscard]] HeldFit bestLogistic(const std::vector<CurvePoint>& points) const;
    [[nodiscard]] QString whyNotLogistic(const HeldFit& best) const;
    void takeLogistic(const HeldFit& best);
    void takeMonotone(const QString& why);
    void findIntervals(const HeldFit& best);
    void findTargets(const HeldFit* best);
    [[nodiscard]] int freeCount() const { return int(std::count(held_.begin(), held_.end(), false)); }

    const CurveRequest& request_;
    std::array<bool, curveParameters> held_ {};
    CurveFit out_;
};

HeldFit Fitting::bestLogistic(const std::vector<CurvePoint>& points) const
{
    const auto means = steps(points);
    double low = 1e9, high = -1e9;
    for (const auto& step : means) {
        low = std::min(low, step.density);
        high = std::max(high, step.density);
    }
    const double half = (low + high) / 2;
    double x = means[means.size() / 2].log_h;
    for (size_t i = 0; i + 1 < means.size(); ++i)
        if (means[i].density <= half && means[i + 1].density > half) {
            const double share = (half - means[i].density) / (means[i + 1].density - means[i].density);
            x = means[i].log_h + share * (means[i + 1].log_h - means[i].log_h);
            break;
        }
    const double span = means.back().log_h - means.front().log_h;
    HeldFit best;
    for (const double steepness : { 6.0, 12.0, 3.0 }) {
        CurveParameters start { low - 0.01, high + 0.01, x, steepness / std::max(span, 1e-6) };
        for (size_t k = 0; k < curveParameters; ++k)
            start[k] = request_.fixed[k].value_or(start[k]);
        const auto fit = fitHeld(points, start, held_);
        if (fit.ok && fit.parameters[Slope] > 0 && (!best.ok || fit.sum_of_squares < best.sum_of_squares * (1 - 1e-9)))
            best = fit;
        if (best.ok && steepness == 6.0 && best.parameters[Midpoint] > means.front().log_h
            && best.parameters[Midpoint] < means.back().log_h)
            break; // an ordinary wedge
    }
    return best;
}

void Fitting::leaveOutTurningBack()
{
    for (;;) {
        const auto means = steps(out_.used);
        if (int(means.size()) < std::max(4, freeCount() + 2))
            return;
        const auto& deepest = means.back();
        double most = -1e9;
        for (size_t i = 0; i + 1 < means.size(); ++i)
            most = std::max(most, means[i].density);
        if (deepest.density >= most - turnBack)
            return;
        auto rest = out_.used;
        std::erase_if(rest, [&](const CurvePoint& point) { return point.log_h > deepest.log_h - 1e-9; });
        // Against the curve through the others, where there is one; noise alone must not cost a step.
        double expected = most, scatter = 0;
        if (const auto fit = bestLogistic(rest); fit.ok) {
            expected = std::min(expected, toLogistic(fit.parameters).at(deepest.log_h));
            const int left = int(rest.size()) - freeCount();
            scatter = left > 0 ? std::sqrt(fit.sum_of_squares / left / std::max(1e-12, deepest.weight)) : 0;
        }
        if (deepest.density > expected - std::max(turnBack, 3 * scatter))
            return;
        for (const auto& point : out_.used)
            if (point.log_h > deepest.log_h - 1e-9)
                out_.left_out.push_back(point);
        out_.used = rest;
    }
}

QString Fitting::whyNotLogistic(const HeldFit& best) const
{
    const auto means = steps(out_.used);
    if (int(means.size()) < freeCount() + 1 || (freeCount() == curveParameters && int(means.size()) < fewestSteps))
        return Words::tr(
            "%n steps are too few for an S-shaped curve; with its slope fixed from earlier wedges fewer are "
            "enough.",
            nullptr, int(means.size()));
    if (!best.ok)
        return Words::tr("No S-shaped curve fits these steps.");
    const double middle = best.parameters[Midpoint];
    const auto beside = [&](bool below) {
        return std::count_if(means.begin(), means.end(),
            [&](const CurvePoint& step) { return below ? step.log_h < middle : step.log_h > middle; });
    };
    if (!held_[Midpoint] && (beside(true) < fewestBeside || beside(false) < fewestBeside)
        && !(held_[DMax] && beside(true) >= fewestBeside) && !(held_[DMin] && beside(false) >= fewestBeside))
        return Words::tr("The steps cover one side of the curve only, so its other end would be a guess.");
    const double range = best.parameters[DMax] - best.parameters[DMin];
    if (best.fit.hasErrors())
        for (size_t i = 0; i < best.free.size(); ++i) {
            const double error = best.fit.standardError(i);
            const bool loose = best.free[i] == Slope ? error > 0.5 * best.parameters[Slope]
                : best.free[i] == Midpoint           ? error > 0.5 * (means.back().log_h - means.front().log_h)
                                                     : error > 0.5 * range;
            if (loose)
                return Words::tr("The steps do not pin an S-shaped curve down.");
        }
    // Residuals that keep their sign over long stretches and are large: the curve is not symmetric.
    const auto curve = toLogistic(best.parameters);
    double squares = 0, neighbours = 0;
    for (size_t i = 0; i < means.size(); ++i) {
        const double off = means[i].density - curve.at(means[i].log_h);
        squares += off * off;
        if (i > 0)
            neighbours += off * (means[i - 1].density - curve.at(means[i - 1].log_h));
    }
    if (means.size() >= 8 && std::sqrt(squares / double(means.size())) > 0.06 && neighbours > 0.5 * squares)
        return Words::tr("The curve is too lopsided for an S shape.");
    return {};
}

void Fitting::takeLogistic(const HeldFit& best)
{
    out_.model = CurveModel::Logistic;
    out_.curve = toLogistic(best.parameters);
    out_.sum_of_squares = best.sum_of_squares;
    out_.degrees_of_freedom = int(out_.used.size()) - freeCount();
    out_.residual_sd = out_.degrees_of_freedom > 0 ? std::sqrt(out_.sum_of_squares / out_.degrees_of_freedom) : 0;
    out_.free = best.free;
    out_.max_gradient = out_.curve.maxGradient();
    if (best.fit.hasErrors()) {
        out_.covariance = out_.residual_sd * out_.residual_sd * best.fit.inverse_information;
        for (size_t i = 0; i < best.free.size(); ++i)
            out_.standard_errors[size_t(best.free[i])] = best.fit.standardError(i);
    }
    out_.toe_log_h = out_.exposureFor(out_.curve.d_min + toeAboveBase);
    out_.shoulder_log_h = out_.exposureFor(out_.curve.d_min + shoulderShare * (out_.curve.d_max - out_.curve.d_min));
    if (request_.intervals)
        findIntervals(best);
    findTargets(&best);
}

void Fitting::findIntervals(const HeldFit& best)
{
    if (!best.fit.hasErrors() || out_.residual_sd == 0)
        return;
    const double t = studentQuantile(out_.degrees_of_freedom);
    const double allowed = best.sum_of_squares * (1 + t * t / out_.degrees_of_freedom);
    for (size_t i = 0; i < best.free.size(); ++i) {
        const auto which = size_t(best.free[i]);
        auto held = held_;
        held[which] = true;
        CurveParameters from = best.parameters;
        out_.intervals[which] = profileInterval(
            best.parameters[which], t * best.fit.standardError(i), allowed, [&](double value) -> std::optional<double> {
                from[which] = value;
                const auto fit = fitHeld(out_.used, from, held);
                if (!fit.ok)
                    return {};
                from = fit.parameters; // the next one starts here
                return fit.sum_of_squares;
            });
    }
}

void Fitting::findTargets(const HeldFit* best)
{
    for (const double density : request_.targets) {
        CurveTarget target;
        target.density = density;
        target.log_h = out_.exposureFor(density);
        if (!target.log_h)
            out_.warnings << Words::tr(
                "A density of %1 is not reached within these steps; nothing is guessed beyond them.")
                                 .arg(density);
        else if (best && best->fit.hasErrors() && out_.residual_sd > 0) {
            // Standard error of the exposure: that of the density there over the gradient; the profile starts from it.
            const double t = studentQuantile(out_.degrees_of_freedom);
            const auto band = out_.bandAt(*target.log_h);
            const double gradient = out_.curve.gradientAt(*target.log_h);
            const double step = std::max(1e-9, (*band.high - *band.low) / 2 / gradient);
            if (held_[Midpoint]) {
                target.log_h_low = *target.log_h - step;
                target.log_h_high = *target.log_h + step;
            } else {
                const double allowed = best->sum_of_squares * (1 + t * t / out_.degrees_of_freedom);
                CurveParameters from = best->parameters;
                const auto ends
                    = profileInterval(*target.log_h, step, allowed, [&](double value) -> std::optional<double> {
                          const auto fit = fitThrough(out_.used, from, held_, density, value);
                          if (!fit.ok)
                              return {};
                          from = fit.parameters;
                          return fit.sum_of_squares;
                      });
                target.log_h_low = ends.low;
                target.log_h_high = ends.high;
            }
        }
        out_.targets.push_back(target);
    }
}

void Fitting::takeMonotone(const QString& why)
{
    out_.model = CurveModel::Monotone;
    out_.warnings << why + QLatin1Char(' ') + Words::tr("A rising curve through the steps is used, inside them only.");
    const auto means = steps(out_.used);
    std::vector<double> x, y, w;
    for (const auto& step : means) {
        x.push_back(step.log_h);
        y.push_back(step.density);
        w.push_back(step.weight);
    }
    const auto smooth = stats::isotonicMeans(y, w);
    out_.monotone.emplace(x, smooth);
    out_.degrees_of_freedom = int(out_.used.size()) - int(means.size());
    for (const auto& point : out_.used) {
        const double off = point.density - out_.monotone->at(point.log_h).value_or(point.density);
        out_.sum_of_squares += point.weight * off * off;
    }
    if (out_.degrees_of_freedom > 0)
        out_.residual_sd = std::sqrt(out_.sum_of_squares / out_.degrees_of_freedom);
    out_.curve = { smooth.front(), smooth.back(), 0, 0 };
    out_.curve.midpoint = out_.monotone->where((smooth.front() + smooth.back()) / 2).value_or(x.front());
    for (int i = 0; i <= 400; ++i)
        out_.max_gradient = std::max(
            out_.max_gradient, out_.monotone->slopeAt(x.front() + (x.back() - x.front()) * i / 400).value_or(0));
    out_.toe_log_h = out_.exposureFor(smooth.front() + toeAboveBase);
    out_.shoulder_log_h = out_.exposureFor(smooth.front() + shoulderShare * (smooth.back() - smooth.front()));
    findTargets(nullptr);
}

Result<CurveFit> Fitting::run()
{
    const auto refuse = [](const char* text) { return Error { Trouble::BadInput, Words::tr(text), {} }; };
    out_.used = request_.points;
    for (const auto& point : out_.used)
        if (!std::isfinite(point.log_h) || !std::isfinite(point.density) || !(point.weight > 0)
            || !std::isfinite(point.weight))
            return refuse(
                QT_TRANSLATE_NOOP("Density", "Every step needs an exposure, a density and a weight above 0."));
    if (request_.fixed[DMin] && request_.fixed[DMax] && *request_.fixed[DMin] >= *request_.fixed[DMax])
        return refuse(QT_TRANSLATE_NOOP("Density", "The fixed lowest density is not below the fixed highest one."));
    if (request_.fixed[Slope] && !(*request_.fixed[Slope] > 0))
        return refuse(QT_TRANSLATE_NOOP("Density", "The fixed slope is not above 0."));
    std::stable_sort(
        out_.used.begin(), out_.used.end(), [](const CurvePoint& a, const CurvePoint& b) { return a.log_h < b.log_h; });
    if (steps(out_.used).size() < 2)
        return refuse(QT_TRANSLATE_NOOP("Density", "A curve needs at least two different exposures."));
    leaveOutTurningBack();
    if (!out_.left_out.empty())
        out_.warnings << Words::tr("The density falls again in the deepest %n steps (reversal); they were left out.",
            nullptr, int(out_.left_out.size()));
    const auto means = steps(out_.used);
    if (means.size() < 2 || !(means.back().density > means.front().density))
        return refuse(QT_TRANSLATE_NOOP("Density", "The density does not rise with the exposure."));
    const auto best = bestLogistic(out_.used);
    const QString why = whyNotLogistic(best);
    if (why.isEmpty())
        takeLogistic(best);
    else
        takeMonotone(why);
    return std::move(out_);
}

} // namespace

std::optional<double> CurveFit::range() const
{
    if (!toe_log_h || !shoulder_log_h)
        return {};
    return *shoulder_log_h - *toe_log_h;
}

std::optional<double> CurveFit::contrast() const
{
    const auto width = range();
    if (!width || !(*width > 0))
        return {};
    return (shoulderShare * (curve.d_max - curve.d_min) - toeAboveBase) / *width;
}

std::optional<double> CurveFit::densityAt(double log_h) const
{
    if (!(log_h >= lowest() && log_h <= highest()))
        return {};
    return monotone ? monotone->at(log_h) : std::optional(curve.at(log_h));
}

std::optional<double> CurveFit::exposureFor(double density) const
{
    if (monotone)
        return monotone->where(density);
    const auto x = curve.where(density);
    if (!x || *x < lowest() || *x > highest())
        return {};
    return x;
}

Interval CurveFit::bandAt(double log_h) const
{
    if (monotone || covariance.size() == 0)
        return {};
    const double q = 1 / (1 + std::exp(-curve.slope * (log_h - curve.midpoint)));
    const double bend = (curve.d_max - curve.d_min) * q * (1 - q);
    const std::array<double, curveParameters> all { 1 - q, q, -bend * curve.slope, bend * (log_h - curve.midpoint) };
    stats::Vector slopes(Eigen::Index(free.size()));
    for (size_t i = 0; i < free.size(); ++i)
        slopes[Eigen::Index(i)] = all[size_t(free[i])];
    const double variance = std::max(0.0, slopes.dot(stats::product(covariance, slopes)));
    double degrees = degrees_of_freedom;
    if (shift_degrees_of_freedom > 0 && variance > 0) { // Satterthwaite's, of the two kinds of variance
        const double between = std::min(variance, all[Midpoint] * all[Midpoint] * shift_variance);
        const double within = variance - between;
        degrees = variance * variance
            / (between * between / shift_degrees_of_freedom + within * within / std::max(1, degrees_of_freedom));
    }
    const double half = studentQuantile(degrees) * std::sqrt(variance);
    return { curve.at(log_h) - half, curve.at(log_h) + half };
}

Result<CurveFit> fitCurve(const CurveRequest& request)
{
    return Fitting(request).run();
}

} // namespace washfast::density
