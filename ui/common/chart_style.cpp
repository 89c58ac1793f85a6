#include "ui/common/chart_style.h"

#include <QtCharts/QCategoryAxis>
#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QLegend>
#include <QtCharts/QValueAxis>
#include <algorithm>
#include <array>
#include <cmath>

namespace washfast::ui {

namespace {

void styleAxis(QAbstractAxis& axis, const QFont& base, const Theme& theme)
{
    axis.setLabelsBrush(theme.quiet);
    axis.setLabelsColor(theme.quiet);
    axis.setLabelsFont(textFont(base, TextSize::Small));
    axis.setTitleBrush(theme.ink);
    axis.setTitleFont(base);
    axis.setLinePen(QPen(theme.edge, 1));
    axis.setGridLinePen(QPen(theme.line, 1));
    axis.setMinorGridLinePen(QPen(theme.line, 0.5, Qt::DotLine));
    axis.setShadesVisible(false);
}

// Nearest of 1, 2, 5 times a power of ten, upwards.
double niceStep(double rough)
{
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    const double lead = rough / power;
    // A hair of slack, so that 1.9999999 from a division counts as 2.
    constexpr double slack = 1 + 1e-9;
    return (lead <= 1 * slack ? 1 : lead <= 2 * slack ? 2 : lead <= 5 * slack ? 5 : 10) * power;
}

int decimalsFor(double step)
{
    return std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
}

QString valueText(double log10, const QLocale& locale)
{
    // To three figures, then written plainly from 0.0001 to 999,999.
    const double value = std::pow(10.0, log10);
    const double grain = std::pow(10.0, std::floor(log10 + 1e-9) - 2);
    return locale.toString(std::round(value / grain) * grain, 'g', 6);
}

} // namespace

void styleChart(QChart& chart, const Theme& theme)
{
    const QFont base = chart.font();
    chart.setBackgroundBrush(theme.sheet);
    chart.setBackgroundPen(Qt::NoPen);
    chart.setBackgroundRoundness(0);
    chart.setPlotAreaBackgroundVisible(false);
    chart.setDropShadowEnabled(false);
    chart.setMargins(QMargins(8, 8, 12, 8));
    chart.setTitleBrush(theme.ink);
    QFont title = base;
    title.setWeight(QFont::DemiBold);
    chart.setTitleFont(title);
    chart.setLocalizeNumbers(true);
    chart.legend()->setLabelColor(theme.ink);
    chart.legend()->setFont(base);
    chart.legend()->setBrush(Qt::NoBrush);
    chart.legend()->setPen(Qt::NoPen);
    const auto axes = chart.axes();
    for (QAbstractAxis* axis : axes)
        styleAxis(*axis, base, theme);
}

void styleChartView(QChartView& view, const Theme& theme)
{
    view.setRenderHint(QPainter::Antialiasing);
    view.setFrameShape(QFrame::NoFrame);
    view.setBackgroundBrush(theme.sheet);
}

QPen groupPen(const Theme& theme, int group, double width)
{
    constexpr std::array dashes { Qt::SolidLine, Qt::DashLine, Qt::DotLine, Qt::DashDotLine };
    const int colours = static_cast<int>(theme.categories.size());
    const auto wrapped = [group](int count) { return static_cast<std::size_t>(((group % count) + count) % count); };
    QPen pen(theme.categories[wrapped(colours)], width, dashes[wrapped(static_cast<int>(dashes.size()))]);
    pen.setCapStyle(Qt::FlatCap);
    pen.setJoinStyle(Qt::RoundJoin);
    return pen;
}

int NiceAxis::ticks() const
{
    return static_cast<int>(std::lround((high - low) / step)) + 1;
}

NiceAxis niceAxis(double minimum, double maximum, int wanted)
{
    if (!std::isfinite(minimum) || !std::isfinite(maximum))
        return {};
    if (minimum > maximum)
        std::swap(minimum, maximum);
    const double scale = std::max(std::abs(minimum), std::abs(maximum));
    if (maximum - minimum <= scale * 1e-12) {
        const double around = scale > 0 ? scale * 0.1 : 0.5;
        minimum -= around;
        maximum += around;
    }
    NiceAxis nice;
    nice.step = niceStep((maximum - minimum) / std::max(1, wanted - 1));
    nice.low = std::floor(minimum / nice.step + 1e-9) * nice.step;
    nice.high = std::ceil(maximum / nice.step - 1e-9) * nice.step;
    nice.decimals = decimalsFor(nice.step);
    return nice;
}

void applyAxis(QValueAxis& axis, const NiceAxis& nice)
{
    axis.setRange(nice.low, nice.high);
    axis.setTickCount(std::max(2, nice.ticks()));
    axis.setLabelFormat(QStringLiteral("%.%1f").arg(nice.decimals));
}

std::vector<LogTick> logTicks(double logLow, double logHigh, int most, const QLocale& locale)
{
    std::vector<LogTick> best;
    if (!std::isfinite(logLow) || !std::isfinite(logHigh) || !(logHigh > logLow) || most < 2)
        return best;
    constexpr double slack = 1e-9;
    const auto collect = [&](const std::vector<double>& leads, int every) {
        std::vector<LogTick> ticks;
        const int first = static_cast<int>(std::floor(logLow)) - 1;
        const int last = static_cast<int>(std::ceil(logHigh));
        for (int decade = first; decade <= last; ++decade) {
            if (((decade % every) + every) % every != 0)
                continue;
            for (const double lead : leads) {
                const double place = decade + std::log10(lead);
                if (place >= logLow - slack && place <= logHigh + slack)
                    ticks.push_back({ place, {} });
            }
        }
        return ticks;
    };
    const std::vector<std::vector<double>> closer { { 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9 },
        { 1, 1.5, 2, 3, 4, 5, 6, 8 }, { 1, 2, 3, 5 }, { 1, 2, 5 }, { 1, 3 }, { 1 } };
    for (const auto& leads : closer) {
        best = collect(leads, 1);
        if (static_cast<int>(best.size()) <= most)
            break;
    }
    for (int every = 2; static_cast<int>(best.size()) > most; ++every)
        best = collect({ 1 }, every);
    if (best.size() < 2)
        best = { { logLow, {} }, { logHigh, {} } };
    for (LogTick& tick : best)
        tick.label = valueText(tick.log10, locale);
    return best;
}

void applyLogAxis(QCategoryAxis& axis, double logLow, double logHigh, const QLocale& locale, int most)
{
    const QStringList old = axis.categoriesLabels();
    for (const QString& label : old)
        axis.remove(label);
    axis.setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
    axis.setStartValue(logLow);
    for (const LogTick& tick : logTicks(logLow, logHigh, most, locale))
        axis.append(tick.label, tick.log10);
    axis.setRange(logLow, logHigh);
}

std::vector<QList<QPointF>> splitAtGaps(const QList<QPointF>& points)
{
    std::vector<QList<QPointF>> runs;
    bool open = false;
    for (const QPointF& point : points) {
        if (!std::isfinite(point.x()) || !std::isfinite(point.y())) {
            open = false;
            continue;
        }
        if (!open)
            runs.emplace_back();
        open = true;
        runs.back().append(point);
    }
    return runs;
}

} // namespace washfast::ui
