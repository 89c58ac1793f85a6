// A paint device that cuts shapes at the painter's clip and hands them on to another painter.
//
// Qt's SVG generator drops clipping, so that a line that leaves the axes would run on over the labels. Painting
// through a CutDevice gives the same drawing with every line, area and picture ended at the clip. Clips are taken as
// rectangles (their bounding rectangle), which is all that charts use; text that starts outside is left out.
#pragma once

#include <QLineF>
#include <QList>
#include <QPaintDevice>
#include <QPointF>
#include <QRectF>
#include <memory>
#include <optional>
#include <vector>

class QPaintEngine;
class QPainter;

namespace washfast::ui {

// The part of a segment inside a rectangle (Liang and Barsky, "A new concept and method for line clipping", ACM
// Transactions on Graphics 3, 1984); nothing if it is all outside.
[[nodiscard]] std::optional<QLineF> cutLine(const QLineF& line, const QRectF& rectangle);
// The pieces of a polyline inside a rectangle, in order.
[[nodiscard]] std::vector<QList<QPointF>> cutPolyline(const QList<QPointF>& points, const QRectF& rectangle);

class CutDevice : public QPaintDevice {
public:
    // Size in pixels at 96 to the inch. `target` paints on the real device and outlives this one.
    CutDevice(QPainter& target, const QSize& size);
    ~CutDevice() override;

    [[nodiscard]] QPaintEngine* paintEngine() const override;

protected:
    int metric(PaintDeviceMetric metric) const override;

private:
    QSize size_;
    std::unique_ptr<QPaintEngine> engine_;
};

} // namespace washfast::ui
