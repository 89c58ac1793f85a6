// The ground for what we paint ourselves over the plot area of a chart: follows the chart's layout and its axes, and
// maps values to places in straight lines. Value axes only; a logarithmic axis is a value axis that carries log10
// (chart_style.h writes its labels).
#pragma once

#include <QGraphicsObject>
#include <QPointF>
#include <QPointer>
#include <QRectF>
#include <QtCharts/QChart>
#include <QtCharts/QValueAxis>

namespace washfast::ui {

// Plot area in the chart's coordinates (y down) and the values at its sides.
struct PlotFrame {
    QRectF area;
    double xLow = 0;
    double xHigh = 0;
    double yLow = 0;
    double yHigh = 0;

    [[nodiscard]] bool isValid() const
    {
        return area.width() > 0 && area.height() > 0 && xHigh != xLow && yHigh != yLow;
    }
    [[nodiscard]] QPointF toPlace(const QPointF& value) const;
    [[nodiscard]] QPointF toValue(const QPointF& place) const;
    bool operator==(const PlotFrame&) const = default;
};

class PlotItem : public QGraphicsObject {
    Q_OBJECT

public:
    // The chart owns the item, and the item stays above the chart's series.
    explicit PlotItem(QChart* chart);

    // The axes to follow. Until it is called: the first horizontal and the first vertical value axis of the chart.
    void setAxes(QValueAxis* x, QValueAxis* y);
    [[nodiscard]] PlotFrame frame() const;
    [[nodiscard]] QRectF boundingRect() const override;

protected:
    // The layout or the range of an axis is another: what was worked out from the frame is out of date.
    virtual void frameChanged() { }
    // How far the item paints past the plot area, in logical pixels.
    virtual double overhang() const { return 0; }
    [[nodiscard]] QChart* chart() const { return chart_; }
    // To be called before overhang() gives another value.
    void aboutToResize() { prepareGeometryChange(); }

private:
    [[nodiscard]] QValueAxis* axis(Qt::Orientation orientation) const;
    void follow(QValueAxis* axis);
    void refresh();

    QChart* chart_ = nullptr;
    QPointer<QValueAxis> x_;
    QPointer<QValueAxis> y_;
};

} // namespace washfast::ui
