#include "ui/common/cut_device.h"

#include <QPaintEngine>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

std::optional<QLineF> cutLine(const QLineF& line, const QRectF& rectangle)
{
    double enter = 0;
    double leave = 1;
    // Each side: the segment goes outwards over it by `rate`, and has `room` before it reaches it.
    const auto side = [&](double rate, double room) {
        if (rate == 0)
            return room >= 0;
        const double t = room / rate;
        if (rate < 0)
            enter = std::max(enter, t);
        else
            leave = std::min(leave, t);
        return enter <= leave;
    };
    if (!side(-line.dx(), line.x1() - rectangle.left()) || !side(line.dx(), rectangle.right() - line.x1())
        || !side(-line.dy(), line.y1() - rectangle.top()) || !side(line.dy(), rectangle.bottom() - line.y1()))
        return std::nullopt;
    return QLineF(line.pointAt(enter), line.pointAt(leave));
}

std::vector<QList<QPointF>> cutPolyline(const QList<QPointF>& points, const QRectF& rectangle)
{
    std::vector<QList<QPointF>> pieces;
    bool open = false;
    for (qsizetype i = 1; i < points.size(); ++i) {
        const auto inside = cutLine(QLineF(points[i - 1], points[i]), rectangle);
        if (!inside) {
            open = false;
            continue;
        }
        if (!open || pieces.back().constLast() != inside->p1())
            pieces.push_back({ inside->p1() });
        pieces.back().append(inside->p2());
        open = inside->p2() == points[i];
    }
    return pieces;
}

namespace {

class CutEngine final : public QPaintEngine {
public:
    explicit CutEngine(QPainter& target)
        : QPaintEngine(QPaintEngine::AllFeatures)
        , target_(target)
    {
    }

    bool begin(QPaintDevice*) override
    {
        base_ = target_.worldTransform();
        target_.save();
        return true;
    }

    bool end() override
    {
        target_.restore();
        return true;
    }

    Type type() const override { return QPaintEngine::User; }

    void updateState(const QPaintEngineState& now) override
    {
        const auto changed = now.state();
        if (changed & DirtyTransform)
            target_.setWorldTransform(now.transform() * base_);
        if (changed & DirtyPen)
            target_.setPen(now.pen());
        if (changed & DirtyBrush)
            target_.setBrush(now.brush());
        if (changed & DirtyBrushOrigin)
            target_.setBrushOrigin(now.brushOrigin());
        if (changed & DirtyFont)
            target_.setFont(now.font());
        if (changed & DirtyBackground)
            target_.setBackground(now.backgroundBrush());
        if (changed & DirtyBackgroundMode)
            target_.setBackgroundMode(now.backgroundMode());
        if (changed & DirtyHints)
            target_.setRenderHints(now.renderHints());
        if (changed & DirtyOpacity)
            target_.setOpacity(now.opacity());
    }

    void drawPath(const QPainterPath& path) override
    {
        const auto clip = clipBox();
        if (!clip || clip->contains(path.boundingRect())) {
            target_.drawPath(path);
            return;
        }
        fill(path, *clip);
        const auto polygons = path.toSubpathPolygons();
        for (const QPolygonF& polygon : polygons)
            stroke(polygon, *clip);
    }

    void drawEllipse(const QRectF& box) override
    {
        const auto clip = clipBox();
        if (!clip || clip->contains(box)) {
            target_.drawEllipse(box);
            return;
        }
        QPainterPath path;
        path.addEllipse(box);
        drawPath(path);
    }

    void drawPolygon(const QPointF* points, int count, PolygonDrawMode mode) override
    {
        QPolygonF polygon(QList<QPointF>(points, points + count));
        const auto clip = clipBox();
        if (mode == PolylineMode) {
            if (!clip || clip->contains(polygon.boundingRect()))
                target_.drawPolyline(polygon);
            else
                stroke(polygon, *clip);
            return;
        }
        QPainterPath path;
        path.addPolygon(polygon);
        path.closeSubpath();
        path.setFillRule(mode == WindingMode ? Qt::WindingFill : Qt::OddEvenFill);
        drawPath(path);
    }

    void drawLines(const QLineF* lines, int count) override
    {
        const auto clip = clipBox();
        for (int i = 0; i < count; ++i) {
            const auto inside = clip ? cutLine(lines[i], *clip) : std::optional(lines[i]);
            if (inside)
                target_.drawLine(*inside);
        }
    }

    void drawPixmap(const QRectF& place, const QPixmap& pixmap, const QRectF& source) override
    {
        drawImage(place, pixmap.toImage(), source, Qt::AutoColor);
    }

    void drawImage(const QRectF& place, const QImage& image, const QRectF& source, Qt::ImageConversionFlags) override
    {
        const auto clip = clipBox();
        const QRectF shown = clip ? place.intersected(*clip) : place;
        if (shown.isEmpty() || place.isEmpty())
            return;
        const double sx = source.width() / place.width();
        const double sy = source.height() / place.height();
        target_.drawImage(shown, image,
            QRectF(source.left() + (shown.left() - place.left()) * sx, source.top() + (shown.top() - place.top()) * sy,
                shown.width() * sx, shown.height() * sy));
    }

    void drawTextItem(const QPointF& place, const QTextItem& item) override
    {
        const auto clip = clipBox();
        if (clip && !clip->adjusted(-1, -item.ascent() - 1, 1, item.ascent() + 1).contains(place))
            return;
        target_.drawTextItem(place, item);
    }

private:
    // In the painter's own coordinates; nothing when nothing is cut.
    std::optional<QRectF> clipBox() const
    {
        if (!painter()->hasClipping())
            return std::nullopt;
        return painter()->clipBoundingRect();
    }

    void fill(const QPainterPath& path, const QRectF& clip)
    {
        if (target_.brush().style() == Qt::NoBrush)
            return;
        QPainterPath window;
        window.addRect(clip);
        const QPen pen = target_.pen();
        target_.setPen(Qt::NoPen);
        target_.drawPath(path.intersected(window));
        target_.setPen(pen);
    }

    void stroke(const QPolygonF& polygon, const QRectF& clip)
    {
        if (target_.pen().style() == Qt::NoPen)
            return;
        const QBrush brush = target_.brush();
        target_.setBrush(Qt::NoBrush);
        for (const auto& piece : cutPolyline(polygon, clip))
            target_.drawPolyline(QPolygonF(piece));
        target_.setBrush(brush);
    }

    QPainter& target_;
    QTransform base_;
};

} // namespace

CutDevice::CutDevice(QPainter& target, const QSize& size)
    : size_(size)
    , engine_(std::make_unique<CutEngine>(target))
{
}

CutDevice::~CutDevice() = default;

QPaintEngine* CutDevice::paintEngine() const
{
    return engine_.get();
}

int CutDevice::metric(PaintDeviceMetric metric) const
{
    constexpr int perInch = 96;
    switch (metric) {
    case PdmWidth:
        return size_.width();
    case PdmHeight:
        return size_.height();
    case PdmWidthMM:
        return static_cast<int>(std::lround(size_.width() * 25.4 / perInch));
    case PdmHeightMM:
        return static_cast<int>(std::lround(size_.height() * 25.4 / perInch));
    case PdmNumColors:
        return 1 << 24;
    case PdmDepth:
        return 32;
    case PdmDpiX:
    case PdmDpiY:
    case PdmPhysicalDpiX:
    case PdmPhysicalDpiY:
        return perInch;
    case PdmDevicePixelRatio:
        return 1;
    case PdmDevicePixelRatioScaled:
        return static_cast<int>(devicePixelRatioFScale());
    }
    return 0;
}

} // namespace washfast::ui
