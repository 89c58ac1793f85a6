#include "ui/sunlight/painted_sheet.h"

#include "ui/common/chart_style.h"

#include <QEvent>
#include <QGraphicsItem>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace washfast::ui::sunlight {

class PaintedSheet::Item : public QGraphicsItem {
public:
    explicit Item(const PaintedSheet& sheet)
        : sheet_(sheet)
    {
    }
    void cover(const QRectF& area)
    {
        prepareGeometryChange();
        area_ = area;
    }
    [[nodiscard]] QRectF boundingRect() const override { return area_; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget* widget) override
    {
        painter->setRenderHint(QPainter::Antialiasing);
        painter->setFont(sheet_.font());
        sheet_.paintInto(*painter, area_, widget != nullptr);
        if (!widget || !sheet_.hasFocus())
            return;
        painter->setPen(QPen(sheet_.theme().blue, 2));
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(area_.adjusted(1, 1, -1, -1));
    }

private:
    const PaintedSheet& sheet_;
    QRectF area_;
};

PaintedSheet::PaintedSheet(const Theme& theme, QWidget* parent)
    : QGraphicsView(parent)
    , theme_(theme)
{
    setScene(new QGraphicsScene(this));
    item_ = new Item(*this);
    scene()->addItem(item_);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setAlignment(Qt::AlignLeft | Qt::AlignTop);
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setBackgroundBrush(theme.sheet);
}

void PaintedSheet::setTheme(const Theme& theme)
{
    theme_ = theme;
    setBackgroundBrush(theme.sheet);
    again();
}

void PaintedSheet::again()
{
    item_->update();
    viewport()->update();
}

void PaintedSheet::resizeEvent(QResizeEvent* event)
{
    QGraphicsView::resizeEvent(event);
    const QRectF area(QPointF(), QSizeF(viewport()->size()));
    item_->cover(area);
    scene()->setSceneRect(area);
}

void PaintedSheet::changeEvent(QEvent* event)
{
    QGraphicsView::changeEvent(event);
    if (event->type() == QEvent::FontChange && item_)
        again();
}

void PaintedSheet::focusInEvent(QFocusEvent* event)
{
    QGraphicsView::focusInEvent(event);
    again();
}

void PaintedSheet::focusOutEvent(QFocusEvent* event)
{
    QGraphicsView::focusOutEvent(event);
    again();
}

void PlotPanel::grid(const std::vector<AxisMark>& across, const std::vector<AxisMark>& up) const
{
    const auto& area = frame_.area;
    painter_.setFont(textFont(painter_.font(), TextSize::Body));
    painter_.setPen(QPen(theme_.line, 1));
    for (const auto& mark : up) {
        const double x = frame_.toPlace({ mark.at, frame_.yLow }).x();
        painter_.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()));
    }
    const double high = painter_.fontMetrics().height();
    double free_below = area.bottom() + high; // words from below upwards never touch
    for (const auto& mark : across) {
        const double y = frame_.toPlace({ frame_.xLow, mark.at }).y();
        if (y < area.top() - 0.5 || y > area.bottom() + 0.5)
            continue;
        painter_.setPen(QPen(theme_.line, 1));
        painter_.drawLine(QPointF(area.left(), y), QPointF(area.right(), y));
        if (y + high / 2 > free_below)
            continue;
        painter_.setPen(theme_.quiet);
        painter_.drawText(
            QRectF(area.left() - 78, y - high / 2, 72, high), Qt::AlignRight | Qt::AlignVCenter, mark.words);
        free_below = y - high / 2;
    }
    painter_.setPen(QPen(theme_.edge, 1));
    painter_.drawLine(area.topLeft(), area.bottomLeft());
    painter_.drawLine(area.bottomLeft(), area.bottomRight());
}

void PlotPanel::underline(const std::vector<AxisMark>& up) const
{
    const auto& area = frame_.area;
    const double high = painter_.fontMetrics().height();
    double free_from = area.left() - 40;
    for (const auto& mark : up) {
        const double x = frame_.toPlace({ mark.at, frame_.yLow }).x();
        const double wide = painter_.fontMetrics().horizontalAdvance(mark.words);
        painter_.setPen(QPen(theme_.edge, 1));
        painter_.drawLine(QPointF(x, area.bottom()), QPointF(x, area.bottom() + 4));
        if (x - wide / 2 < free_from)
            continue;
        painter_.setPen(theme_.quiet);
        painter_.drawText(QRectF(x - wide / 2 - 2, area.bottom() + 5, wide + 4, high), Qt::AlignCenter, mark.words);
        free_from = x + wide / 2 + 8;
    }
}

void PlotPanel::caption(const QString& words) const
{
    const double high = painter_.fontMetrics().height();
    painter_.setPen(theme_.ink);
    painter_.drawText(QRectF(frame_.area.left(), frame_.area.top() - high - 3, frame_.area.width(), high),
        Qt::AlignLeft | Qt::AlignVCenter,
        painter_.fontMetrics().elidedText(words, Qt::ElideRight, int(frame_.area.width())));
}

void PlotPanel::line(const QList<QPointF>& values, const QPen& pen) const
{
    painter_.setPen(pen);
    painter_.setBrush(Qt::NoBrush);
    for (const auto& run : splitAtGaps(values)) {
        QPolygonF places;
        for (const auto& value : run)
            places << frame_.toPlace(value);
        if (places.size() == 1)
            painter_.drawPoint(places.front());
        else
            painter_.drawPolyline(places);
    }
}

void PlotPanel::band(const QList<QPointF>& low, const QList<QPointF>& high, const QColor& fill) const
{
    painter_.setPen(Qt::NoPen);
    painter_.setBrush(fill);
    const auto count = std::min(low.size(), high.size());
    for (qsizetype from = 0; from < count;) {
        const auto known = [&](qsizetype at) { return std::isfinite(low[at].y()) && std::isfinite(high[at].y()); };
        if (!known(from)) {
            ++from;
            continue;
        }
        qsizetype to = from;
        while (to < count && known(to))
            ++to;
        QPolygonF outline;
        for (auto at = from; at < to; ++at)
            outline << frame_.toPlace(low[at]);
        for (auto at = to; at-- > from;)
            outline << frame_.toPlace(high[at]);
        painter_.drawPolygon(outline);
        from = to;
    }
    painter_.setBrush(Qt::NoBrush);
}

QColor veiled(QColor colour, int alpha)
{
    colour.setAlpha(alpha);
    return colour;
}

QRectF paintLabel(QPainter& painter, const Theme& theme, const QPointF& middle, const QString& words,
    const QRectF& bounds, const QColor& ink)
{
    const auto& metrics = painter.fontMetrics();
    QRectF patch(0, 0, metrics.horizontalAdvance(words) + 8, metrics.height());
    patch.moveCenter(middle);
    patch.moveLeft(std::max(bounds.left(), std::min(patch.left(), bounds.right() - patch.width())));
    patch.moveTop(std::max(bounds.top(), std::min(patch.top(), bounds.bottom() - patch.height())));
    painter.setPen(Qt::NoPen);
    painter.setBrush(veiled(theme.sheet, 225));
    painter.drawRect(patch);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(ink);
    painter.drawText(patch, Qt::AlignCenter, words);
    return patch;
}

} // namespace washfast::ui::sunlight
