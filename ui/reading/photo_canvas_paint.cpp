// How the photo and its marks are painted.
#include "ui/reading/marked_rows.h"
#include "ui/reading/photo_canvas.h"

#include <QPainter>

namespace washfast::ui {

namespace {

constexpr int loupeSide = 150, loupeTimes = 6;

/// Black under white is seen on any photo; what is chosen is thicker.
void frame(QPainter& painter, const QPolygonF& shape, bool strong, Qt::PenStyle style)
{
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Qt::black, strong ? 5 : 3));
    painter.drawPolygon(shape);
    painter.setPen(QPen(Qt::white, strong ? 3 : 1.2, style));
    painter.drawPolygon(shape);
}

} // namespace

void PhotoCanvas::paintLabel(QPainter& painter, QPointF at, const QString& text) const
{
    const QRectF label(at, QSizeF(fontMetrics().horizontalAdvance(text) + 8, fontMetrics().height()));
    painter.fillRect(label, theme_.sheet);
    painter.setPen(theme_.ink);
    painter.drawText(label, Qt::AlignCenter, text);
}

void PhotoCanvas::paintCorner(QPainter& painter, int thing) const
{
    const auto* corner = cornerOf(thing);
    if (!corner)
        return;
    const bool chosen = thing == chosen_;
    painter.setPen(QPen(Qt::black, 1.5));
    painter.setBrush(chosen ? theme_.rust : QColor(Qt::white));
    painter.drawEllipse(toWidget(*corner), chosen ? 7 : 5, chosen ? 7 : 5);
    painter.setBrush(Qt::NoBrush);
}

void PhotoCanvas::paintRow(QPainter& painter, size_t row) const
{
    const auto& marked = photo_->rows[row];
    const auto strip = shapeOf(marked.corners);
    frame(painter, strip, chosenRow() == row && !cornerOf(chosen_), Qt::DashLine);
    const int count = countOf(marked, photo_->references);
    const auto places = placesOf(marked, count, 0.2);
    const double spacing = count > 0 ? QLineF(strip[0], strip[1]).length() / count : 0;
    for (size_t i = 0; i < places.size(); ++i) {
        const auto shape = shapeOf(places[i]);
        frame(painter, shape, false, Qt::SolidLine);
        const auto number = QString::number(i + 1);
        const double wide = fontMetrics().horizontalAdvance(number) + 8;
        if (i == 0 || i + 1 == places.size() || wide + 4 < spacing)
            paintLabel(
                painter, shape.boundingRect().center() - QPointF(wide / 2, fontMetrics().height() / 2.0), number);
    }
    const auto box = strip.boundingRect();
    paintLabel(painter, { box.left(), std::max(0.0, box.top() - fontMetrics().height() - 8) }, rowName(row));
}

void PhotoCanvas::paintLoupe(QPainter& painter) const
{
    const auto* corner = cornerOf(chosen_);
    if (!corner)
        return;
    const auto at = toWidget(*corner);
    const QRectF loupe(at.x() < width() / 2.0 ? width() - loupeSide - 8 : 8, 8, loupeSide, loupeSide);
    const double side = double(loupeSide) / loupeTimes;
    painter.setRenderHint(QPainter::SmoothPixmapTransform, false);
    painter.fillRect(loupe, theme_.sheet);
    painter.drawImage(loupe, photo_->shown, QRectF(corner->x - side / 2, corner->y - side / 2, side, side));
    painter.setPen(QPen(theme_.ink, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(loupe);
    for (const auto& pen : { QPen(Qt::white, 3), QPen(Qt::black, 1) }) {
        painter.setPen(pen);
        painter.drawLine(loupe.center() - QPointF(20, 0), loupe.center() + QPointF(20, 0));
        painter.drawLine(loupe.center() - QPointF(0, 20), loupe.center() + QPointF(0, 20));
    }
}

void PhotoCanvas::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.fillRect(rect(), theme_.paper);
    if (!photo_ || photo_->shown.isNull()) {
        painter.setPen(theme_.quiet);
        painter.drawText(rect().adjusted(24, 24, -24, -24), Qt::AlignCenter | Qt::TextWordWrap, hint_);
        return;
    }
    const QRectF whole(origin_, QSizeF(photo_->shown.size()) * zoom_);
    painter.setRenderHint(QPainter::SmoothPixmapTransform, zoom_ < 2);
    painter.drawImage(whole, photo_->shown);
    if (!overlay_.isNull())
        painter.drawImage(whole, overlay_);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    for (size_t i = 0; i < photo_->outlines.size(); ++i)
        frame(painter, shapeOf(photo_->outlines[i].corners), false, Qt::DashLine);
    for (size_t i = 0; i < photo_->rows.size(); ++i)
        paintRow(painter, i);
    for (size_t i = 0; i < photo_->marks.size(); ++i) {
        const auto shape = shapeOf(photo_->marks[i].corners);
        frame(painter, shape, int(i) == chosen_, Qt::SolidLine);
        paintLabel(painter, shape.boundingRect().topLeft(), QString::number(i + 1));
    }
    for (int i = int(photo_->marks.size()); i < things(); ++i)
        paintCorner(painter, i);
    if (drag_ == Drag::Draw)
        frame(painter, shapeOf(drawn(toPhoto(from_), toPhoto(to_))), true, Qt::SolidLine);
    paintLoupe(painter);
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme_.blue, 2));
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

} // namespace washfast::ui
