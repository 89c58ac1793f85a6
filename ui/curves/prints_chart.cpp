#include "ui/curves/prints_chart.h"

#include "ui/common/chart_style.h"
#include "ui/curves/plot_heading.h"

#include <QCategoryAxis>
#include <QChart>
#include <QValueAxis>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr int mapColumns = 8;
constexpr int mapRows = 8;
constexpr int enoughForMean = 3;
constexpr int ticksWanted = 9;

} // namespace

PrintsChart::PrintsChart(const Theme& theme, QWidget* parent)
    : QChartView(parent)
    , theme_(theme)
{
    auto* c = chart();
    c->legend()->hide();
    x_ = new QValueAxis(c);
    x_log_ = new QCategoryAxis(c);
    x_log_->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
    y_ = new QValueAxis(c);
    c->addAxis(x_, Qt::AlignBottom);
    c->addAxis(x_log_, Qt::AlignBottom);
    c->addAxis(y_, Qt::AlignLeft);
    points_ = new PointLayer(c, theme);
    map_ = new HeatLayer(c, theme);
    heading_ = new PlotHeading(c);
    points_->attachKeys(this);
    connect(points_, &PointLayer::hovered, this, [this](int at) { Q_EMIT hovered(at); });
    connect(points_, &PointLayer::clicked, this, [this](int at) { Q_EMIT picked(at); });
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(420, 320);
    setTheme(theme);
}

void PrintsChart::setPrints(PlottedPrints prints, const PlotAxes& axes, const QString& title)
{
    prints_ = std::move(prints);
    axes_ = axes;
    title_ = title;
    setAccessibleName(title);
    setAccessibleDescription(tr("%n print(s) shown", nullptr, int(prints_.rows.size())));
    layAxes();
    layPoints();
    layMap();
    style();
}

void PrintsChart::style()
{
    styleChart(*chart(), theme_);
    chart()->setMargins(QMargins(12, int(PlotHeading::height) + 16, 20, 8)); // styling sets its own
}

void PrintsChart::layAxes()
{
    const auto& choice = axes_;
    const auto x = extentOf(prints_.x).value_or(choice.x_log ? std::pair(-1.0, 1.0) : std::pair(0.0, 100.0));
    const auto y = extentOf(prints_.y).value_or(choice.map ? std::pair(0.0, 100.0) : std::pair(0.0, 1.5));
    x_->setVisible(!choice.x_log);
    x_log_->setVisible(choice.x_log);
    if (choice.x_log)
        applyLogAxis(*x_log_, x.first - 0.05, x.second + 0.05, QLocale());
    else
        applyAxis(*x_, niceAxis(x.first, x.second, ticksWanted));
    applyAxis(*y_, niceAxis(std::min(0.0, y.first), y.second, ticksWanted));
    x_->setTitleText(prints_.x_label);
    x_log_->setTitleText(prints_.x_label);
    y_->setTitleText(prints_.y_label);
    auto* across = choice.x_log ? static_cast<QValueAxis*>(x_log_) : x_;
    points_->setAxes(across, y_);
    map_->setAxes(across, y_);
}

void PrintsChart::layPoints()
{
    const auto& choice = axes_;
    const auto extent = extentOf(prints_.colour);
    PointCloud cloud;
    const size_t n = prints_.rows.size();
    cloud.positions.reserve(n);
    for (size_t i = 0; i < n; ++i) {
        cloud.positions.emplace_back(prints_.x[i], prints_.y[i]);
        const double span = extent ? extent->second - extent->first : 0.0;
        const bool known = extent && !std::isnan(prints_.colour[i]);
        cloud.colours.push_back(known
                ? onRamp(theme_.markRamp, span > 0 ? (prints_.colour[i] - extent->first) / span : 1.0).rgb()
                : (choice.colour.isEmpty() ? theme_.blue : PlotHeading::unknownColour(theme_)).rgb());
        cloud.shapes.push_back(prints_.fate[i] == Fate::Failed ? PointShape::Cross
                : prints_.fate[i] == Fate::Kept                ? PointShape::Circle
                                                               : PointShape::Diamond);
    }
    // On the map the prints themselves are small marks over the cells.
    points_->setPointSize(choice.map ? 4.0 : n > 5000 ? 5.0 : 9.0);
    points_->setPoints(std::move(cloud));
    const auto text = [&](double value) {
        const bool dose = choice.colour == QLatin1String("log_dose");
        return QLocale().toString(dose ? std::pow(10.0, value) : value, 'g', 3);
    };
    const bool gaps
        = std::any_of(prints_.colour.begin(), prints_.colour.end(), [](double value) { return std::isnan(value); });
    heading_->set({ title_, choice.map ? theme_.ramp : theme_.markRamp, prints_.colour_label,
                      extent ? text(extent->first) : QString(), extent ? text(extent->second) : QString(),
                      gaps && extent ? tr("%1 not recorded").arg(prints_.colour_label) : QString() },
        theme_);
}

void PrintsChart::layMap()
{
    const bool shown = axes_.map && !prints_.rows.empty();
    map_->setVisible(shown);
    if (!shown)
        return;
    const auto frame = map_->frame();
    std::vector<QPointF> positions;
    for (size_t i = 0; i < prints_.rows.size(); ++i)
        positions.emplace_back(prints_.x[i], prints_.y[i]);
    map_->setMap(meanMap(positions, prints_.colour, evenEdges(frame.xLow, frame.xHigh, mapColumns),
        evenEdges(frame.yLow, frame.yHigh, mapRows)));
    if (const auto extent = extentOf(prints_.colour))
        map_->setRange(extent->first, extent->second);
    map_->setEnough(enoughForMean);
    map_->setZValue(points_->zValue() - 1);
}

void PrintsChart::setTheme(const Theme& theme)
{
    theme_ = theme;
    points_->setTheme(theme);
    map_->setTheme(theme);
    style();
    styleChartView(*this, theme);
    layPoints();
    layMap();
}

} // namespace washfast::ui
