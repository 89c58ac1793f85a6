#include "ui/curves/curve_chart.h"

#include "ui/common/chart_style.h"

#include <QCategoryAxis>
#include <QChart>
#include <QValueAxis>
#include <algorithm>

namespace washfast::ui::curves {

namespace {

constexpr int ticksWanted = 8, ticksCompact = 4;
constexpr double besidePoints = 0.06; // of the axis across, in its own units for log10

} // namespace

CurveChart::CurveChart(const Theme& theme, bool logarithmic, QWidget* parent)
    : QChartView(parent)
    , theme_(theme)
{
    auto* c = chart();
    c->legend()->hide();
    if (logarithmic) {
        x_log_ = new QCategoryAxis(c);
        x_log_->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
        c->addAxis(x_log_, Qt::AlignBottom);
    } else {
        x_ = new QValueAxis(c);
        c->addAxis(x_, Qt::AlignBottom);
    }
    y_ = new QValueAxis(c);
    c->addAxis(y_, Qt::AlignLeft);
    layer_ = new CurveLayer(c, theme);
    points_ = new PointLayer(c, theme);
    heading_ = new CurveHeading(c);
    auto* across = x_log_ ? static_cast<QValueAxis*>(x_log_) : x_;
    layer_->setAxes(across, y_);
    points_->setAxes(across, y_);
    points_->attachKeys(this);
    connect(points_, &PointLayer::hovered, this, [this](int at) { Q_EMIT hovered(at); });
    connect(points_, &PointLayer::clicked, this, [this](int at) { Q_EMIT picked(at); });
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(380, 300);
    setTheme(theme);
}

void CurveChart::setCompact()
{
    compact_ = true;
    setMinimumSize(200, 150);
}

void CurveChart::setPicture(
    CurvePicture picture, const QString& title, const QStringList& names, const QString& description)
{
    picture_ = std::move(picture);
    title_ = title;
    names_ = names;
    setAccessibleName(title);
    setAccessibleDescription(description);
    layAxes();
    layPoints();
    layer_->setPicture(picture_);
    style();
}

void CurveChart::layAxes()
{
    const auto& extent = picture_.extent;
    const bool any = !picture_.points.empty();
    const int ticks = compact_ ? ticksCompact : ticksWanted;
    double left = any ? extent.left() : -1, right = any ? extent.right() : 1;
    if (x_log_)
        applyLogAxis(*x_log_, left - besidePoints, right + besidePoints, QLocale(), ticks);
    else
        applyAxis(*x_, niceAxis(any ? left : 0, any ? right : 1, ticks));
    double low = any ? extent.top() : 0, high = any ? extent.bottom() : 1;
    for (const auto& point : picture_.points) {
        low = std::min(low, point.at.y() - point.bar);
        high = std::max(high, point.at.y() + point.bar);
    }
    for (const auto& line : picture_.lines)
        for (const auto& point : line.points) {
            low = std::min(low, point.y());
            high = std::max(high, point.y());
        }
    applyAxis(*y_, niceAxis(from_zero_ ? std::min(0.0, low) : low, high, ticks));
    auto* across = x_log_ ? static_cast<QValueAxis*>(x_log_) : x_;
    across->setTitleText(picture_.x_label);
    y_->setTitleText(picture_.y_label);
}

void CurveChart::layPoints()
{
    PointCloud cloud;
    for (const auto& point : picture_.points) {
        cloud.positions.push_back(point.at);
        cloud.colours.push_back(theme_.categories[size_t(point.group) % theme_.categories.size()].rgb());
        cloud.shapes.push_back(point.left_out ? PointShape::Cross : groupShape(point.group));
    }
    points_->setPointSize(compact_ ? 8 : 9);
    points_->setPoints(std::move(cloud));
    std::vector<CurveHeading::Entry> entries;
    if (!compact_) {
        for (qsizetype k = 0; k < names_.size(); ++k)
            entries.push_back(
                { groupShape(int(k)), theme_.categories[size_t(k) % theme_.categories.size()], names_[k] });
        if (std::any_of(picture_.points.begin(), picture_.points.end(), [](const auto& p) { return p.left_out; }))
            entries.push_back({ PointShape::Cross, theme_.ink, tr("turned back, left out") });
    }
    heading_->set(title_, std::move(entries), theme_);
}

void CurveChart::style()
{
    styleChart(*chart(), theme_);
    const double width = std::max(120.0, chart()->plotArea().width());
    chart()->setMargins(QMargins(compact_ ? 4 : 12, int(heading_->heightFor(width)) + 14, compact_ ? 12 : 20,
        compact_ ? 2 : 8)); // styling sets its own
}

void CurveChart::resizeEvent(QResizeEvent* event)
{
    QChartView::resizeEvent(event);
    style(); // the legend may need another line
}

void CurveChart::setTheme(const Theme& theme)
{
    theme_ = theme;
    layer_->setTheme(theme);
    points_->setTheme(theme);
    layPoints();
    style();
    styleChartView(*this, theme);
}

} // namespace washfast::ui::curves
