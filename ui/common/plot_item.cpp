#include "ui/common/plot_item.h"

namespace washfast::ui {

QPointF PlotFrame::toPlace(const QPointF& value) const
{
    return { area.left() + (value.x() - xLow) / (xHigh - xLow) * area.width(),
        area.bottom() - (value.y() - yLow) / (yHigh - yLow) * area.height() };
}

QPointF PlotFrame::toValue(const QPointF& place) const
{
    return { xLow + (place.x() - area.left()) / area.width() * (xHigh - xLow),
        yLow + (area.bottom() - place.y()) / area.height() * (yHigh - yLow) };
}

PlotItem::PlotItem(QChart* chart)
    : QGraphicsObject(chart)
    , chart_(chart)
{
    // Above the series and the grid of the chart, below its title and legend boxes.
    setZValue(8);
    connect(chart, &QChart::plotAreaChanged, this, &PlotItem::refresh);
}

QValueAxis* PlotItem::axis(Qt::Orientation orientation) const
{
    const QPointer<QValueAxis>& chosen = orientation == Qt::Horizontal ? x_ : y_;
    if (chosen)
        return chosen;
    const auto axes = chart_->axes(orientation);
    for (QAbstractAxis* candidate : axes)
        if (auto* value = qobject_cast<QValueAxis*>(candidate))
            return value;
    return nullptr;
}

void PlotItem::follow(QValueAxis* axis)
{
    if (!axis)
        return;
    connect(axis, &QValueAxis::rangeChanged, this, &PlotItem::refresh);
    connect(axis, &QValueAxis::reverseChanged, this, &PlotItem::refresh);
}

void PlotItem::setAxes(QValueAxis* x, QValueAxis* y)
{
    for (const auto& old : { x_, y_ })
        if (old)
            disconnect(old, nullptr, this, nullptr);
    x_ = x;
    y_ = y;
    follow(x);
    if (y != x)
        follow(y);
    refresh();
}

PlotFrame PlotItem::frame() const
{
    const QValueAxis* x = axis(Qt::Horizontal);
    const QValueAxis* y = axis(Qt::Vertical);
    if (!x || !y)
        return {};
    PlotFrame result { chart_->plotArea(), x->min(), x->max(), y->min(), y->max() };
    if (x->isReverse())
        std::swap(result.xLow, result.xHigh);
    if (y->isReverse())
        std::swap(result.yLow, result.yHigh);
    return result;
}

QRectF PlotItem::boundingRect() const
{
    const double margin = overhang();
    return chart_->plotArea().adjusted(-margin, -margin, margin, margin);
}

void PlotItem::refresh()
{
    prepareGeometryChange();
    frameChanged();
    update();
}

} // namespace washfast::ui
