// The figures beside the curve: what can be read from it, each with its 95 % interval where there is one.
#include "ui/curves/curve_page_state.h"
#include "ui/curves/words.h"

namespace washfast::ui::curves {

namespace {

QString dose(const std::optional<double>& log_h)
{
    return log_h ? Words::tr("%1 J/cm²").arg(doseFigure(log_h)) : doseFigure(log_h);
}

/// "+2.4", "−0.8" per cent from a slope in log10 a day.
QString perDay(double log10_per_day)
{
    const double percent = 100 * (std::pow(10, log10_per_day) - 1);
    return (percent < 0 ? QString(QChar(0x2212)) : QStringLiteral("+"))
        + figure(std::abs(percent), std::abs(percent) < 99.5 ? 1 : 0);
}

/// Whether an interval reaches where nothing was measured.
bool reachesBeyond(const density::CurveFit& fit, const density::CurveTarget& target)
{
    return (target.log_h_low && *target.log_h_low < fit.lowest())
        || (target.log_h_high && *target.log_h_high > fit.highest());
}

} // namespace

std::vector<Figure> CurvePageState::figures() const
{
    std::vector<Figure> all;
    if (!fit_)
        return all;
    const auto& fit = *fit_;
    const bool logistic = fit.model == density::CurveModel::Logistic;
    if (const auto wanted = target()) {
        all.push_back({ Words::tr("Exposure for %1").arg(figure(wanted->density, 2)), dose(wanted->log_h),
            doseInterval(wanted->log_h_low, wanted->log_h_high),
            !wanted->log_h ? Words::tr("No step reached this density; nothing is guessed beyond the steps.")
                : reachesBeyond(fit, *wanted)
                ? Words::tr("Ultraviolet dose at the paper, 315-400 nm, with nothing over it. Its interval reaches "
                            "beyond the steps.")
                : Words::tr("Ultraviolet dose at the paper, 315-400 nm, with nothing over it.") });
        if (const auto next = nextPrint(); next.low)
            all.push_back({ Words::tr("The same, next print"), {}, doseInterval(next.low, next.high),
                Words::tr("Where its own exposure for that density will lie: prints differ in speed.") });
    }
    all.push_back({ Words::tr("Base"), figure(fit.curve.d_min, 2), interval(fit.intervals[density::DMin], 2),
        logistic ? Words::tr("Density without any exposure.") : Words::tr("Lightest step.") });
    all.push_back({ Words::tr("Deepest"), figure(fit.curve.d_max, 2), interval(fit.intervals[density::DMax], 2),
        logistic ? Words::tr("Density that the curve tends to.") : Words::tr("Deepest step.") });
    all.push_back({ Words::tr("Toe"), dose(fit.toe_log_h), {},
        fit.toe_log_h ? Words::tr("Exposure for 0.04 above the base, after ISO 6846 by analogy.")
                      : Words::tr("It lies outside the steps.") });
    all.push_back({ Words::tr("Shoulder"), dose(fit.shoulder_log_h), {},
        fit.shoulder_log_h ? Words::tr("Exposure for 90 % of the way from base to deepest, after ISO 6846 by analogy.")
                           : Words::tr("It lies outside the steps.") });
    if (const auto range = fit.range())
        all.push_back({ Words::tr("Exposure range"), figure(*range, 2), {},
            Words::tr("From toe to shoulder in log10: a factor of %1.").arg(figure(std::pow(10, *range), 0)) });
    if (const auto contrast = fit.contrast())
        all.push_back({ Words::tr("Contrast"), figure(*contrast, 2), {},
            Words::tr("Mean slope between toe and shoulder, density over log10 of the exposure.") });
    if (fit.max_gradient > 0)
        all.push_back({ Words::tr("Steepest slope"), figure(fit.max_gradient, 2), {},
            Words::tr("Density over log10 of the exposure, in the middle of the curve.") });
    all.push_back({ Words::tr("Scatter of the steps"), figure(fit.residual_sd, 3), {},
        Words::tr("Standard deviation of the densities around the curve.") });
    if (pooled_)
        all.push_back(
            { Words::tr("Prints differ by"), Words::tr("× %1").arg(figure(std::pow(10, pooled_->shift_sd), 2)),
                pooled_->shift_sd_95.low ? Words::tr("%1 to %2")
                                               .arg(figure(std::pow(10, *pooled_->shift_sd_95.low), 2),
                                                   figure(std::pow(10, *pooled_->shift_sd_95.high), 2))
                                         : QString(),
                Words::tr("Standard deviation of the prints' shifts, as a factor on the exposure; differences of the "
                          "doses' own errors are in it.") });
    if (drift_)
        all.push_back({ Words::tr("Each day of the mix"), Words::tr("%1 %").arg(perDay(drift_->per_unit)),
            Words::tr("%1 to %2 %").arg(perDay(drift_->low), perDay(drift_->high)),
            Words::tr(
                "More exposure (+) or less (−) that is needed as the mix gets older, from %n print(s). An interval "
                "that holds both says that no drift is to be seen.",
                nullptr, drift_->prints) });
    return all;
}

} // namespace washfast::ui::curves
