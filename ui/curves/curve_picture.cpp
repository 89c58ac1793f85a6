#include "ui/curves/curve_picture.h"

#include "ui/curves/words.h"

#include <algorithm>

namespace washfast::ui::curves {

namespace {

constexpr int lineSteps = 160;
constexpr double normal95 = 1.959964; // both sides

std::vector<double> evenly(double low, double high)
{
    std::vector<double> at;
    for (int i = 0; i <= lineSteps; ++i)
        at.push_back(i == lineSteps ? high : low + (high - low) * i / lineSteps);
    return at;
}

/// The curve between two exposures, moved by `shift`; only where it was measured.
std::vector<QPointF> lineOf(const density::CurveFit& fit, double low, double high, double shift = 0)
{
    std::vector<QPointF> line;
    for (const double x : evenly(std::max(low, fit.lowest()), std::min(high, fit.highest())))
        if (const auto density = fit.densityAt(x))
            line.emplace_back(x + shift, *density);
    return line;
}

std::vector<QPointF> bandOf(const density::CurveFit& fit)
{
    std::vector<QPointF> upper, lower;
    for (const double x : evenly(fit.lowest(), fit.highest()))
        if (const auto ends = fit.bandAt(x); ends.low && ends.high) {
            upper.emplace_back(x, *ends.high);
            lower.emplace_back(x, *ends.low);
        }
    upper.insert(upper.end(), lower.rbegin(), lower.rend());
    return upper;
}

void take(QRectF& extent, const QPointF& point, bool first)
{
    if (first) {
        extent = { point, QSizeF(0, 0) };
        return;
    }
    extent.setCoords(std::min(extent.left(), point.x()), std::min(extent.top(), point.y()),
        std::max(extent.right(), point.x()), std::max(extent.bottom(), point.y()));
}

void addPoints(const CurvePageState& state, bool laid_over, CurvePicture& picture)
{
    for (size_t k = 0; k < state.prints().size(); ++k) {
        const auto& print = state.prints()[k];
        for (const auto& step : print.steps.points) {
            PicturePoint point;
            point.at = { step.log_h - (laid_over ? print.shift : 0), step.density };
            point.bar = step.spread.value_or(0);
            point.group = int(k);
            point.step = step.step;
            if (print.alone)
                point.left_out = std::any_of(print.alone->left_out.begin(), print.alone->left_out.end(),
                    [&](const auto& out) { return std::abs(out.log_h - step.log_h) < 1e-9; });
            take(picture.extent, point.at, picture.points.empty());
            picture.points.push_back(point);
        }
    }
}

void addMarks(const CurvePageState& state, CurvePicture& picture)
{
    const auto& fit = *state.fit();
    picture.up.push_back({ fit.curve.d_min, Words::tr("base"), false });
    if (fit.toe_log_h)
        picture.across.push_back({ *fit.toe_log_h, Words::tr("toe"), false });
    if (fit.shoulder_log_h)
        picture.across.push_back({ *fit.shoulder_log_h, Words::tr("shoulder"), false });
    if (const auto wanted = state.target(); wanted && wanted->log_h) {
        picture.across.push_back({ *wanted->log_h,
            Words::tr("%1 J/cm² for %2").arg(doseFigure(wanted->log_h), figure(wanted->density, 2)), true });
        picture.up.push_back({ wanted->density, {}, true });
        if (wanted->log_h_low && wanted->log_h_high)
            picture.wanted_ends
                = { std::max(*wanted->log_h_low, fit.lowest()), std::min(*wanted->log_h_high, fit.highest()) };
    }
}

} // namespace

CurvePicture curvePicture(const CurvePageState& state, bool laid_over)
{
    CurvePicture picture;
    picture.x_label = laid_over && state.pooled()
        ? Words::tr("Dose behind the step, as for a print of ordinary speed [J/cm²]")
        : Words::tr("Dose behind the step [J/cm²]");
    picture.y_label = state.densityLabel();
    addPoints(state, laid_over, picture);
    if (!state.fit())
        return picture;
    const auto& fit = *state.fit();
    if (laid_over || !state.pooled()) {
        picture.lines.push_back({ lineOf(fit, fit.lowest(), fit.highest()), -1 });
        picture.band = bandOf(fit);
        addMarks(state, picture);
        return picture;
    }
    for (size_t k = 0; k < state.prints().size(); ++k) {
        const auto& print = state.prints()[k];
        const auto& points = print.steps.points;
        picture.lines.push_back(
            { lineOf(fit, points.front().log_h - print.shift, points.back().log_h - print.shift, print.shift),
                int(k) });
    }
    return picture;
}

CurvePicture driftPicture(const CurvePageState& state)
{
    CurvePicture picture;
    picture.x_label = Words::tr("Age of the mix [days]");
    picture.y_label = Words::tr("Shift [log10]");
    for (size_t k = 0; k < state.prints().size(); ++k) {
        const auto& print = state.prints()[k];
        if (!print.print.mix_age_d || !print.shift_error)
            continue;
        const PicturePoint point { { *print.print.mix_age_d, print.shift }, normal95 * *print.shift_error, int(k), 0,
            false };
        take(picture.extent, point.at, picture.points.empty());
        picture.points.push_back(point);
    }
    const auto& drift = state.drift();
    if (!drift || picture.points.empty())
        return picture;
    std::vector<QPointF> line;
    for (const double x : { picture.extent.left(), picture.extent.right() })
        line.emplace_back(x, drift->at_middle + drift->per_unit * (x - drift->middle));
    picture.lines.push_back({ line, -1 });
    return picture;
}

} // namespace washfast::ui::curves
