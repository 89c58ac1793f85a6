#include "ui/reading/signs_canvas.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

namespace washfast::ui {

namespace {

constexpr double handle = 6; // half its side
constexpr double near = 12;
constexpr double smallest = 4; // pixels of the photo
constexpr int loupeSide = 120, loupeZoom = 4;

QPolygonF polygon(const SheetCanvas& canvas, const density::Corners& corners)
{
    QPolygonF out;
    for (const auto& corner : corners)
        out << canvas.toWidget(corner);
    return out;
}

/// Seen on any photo: white under black.
void outline(QPainter& painter, const QPolygonF& shape, bool chosen)
{
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Qt::white, chosen ? 5 : 3));
    painter.drawPolygon(shape);
    painter.setPen(QPen(Qt::black, chosen ? 2 : 1));
    painter.drawPolygon(shape);
}

} // namespace

SheetCanvas::SheetCanvas(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(280, 220);
    setAccessibleName(tr("Photo with the corners of the sheet"));
}

void SheetCanvas::setSheet(std::shared_ptr<MarkedSheet> sheet, const QString& hint)
{
    if (sheet != sheet_)
        chosen_ = -1;
    sheet_ = std::move(sheet);
    hint_ = hint;
    shown_ = {};
    tell();
    update();
}

void SheetCanvas::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

QRectF SheetCanvas::area() const
{
    if (!ready())
        return {};
    const auto room = QRectF(rect()).adjusted(handle + 2, handle + 2, -handle - 2, -handle - 2);
    const auto size = QSizeF(sheet_->photo->width(), sheet_->photo->height()).scaled(room.size(), Qt::KeepAspectRatio);
    return { room.center() - QPointF(size.width(), size.height()) / 2, size };
}

QPointF SheetCanvas::toWidget(density::Point photo) const
{
    const auto place = area();
    return ready() ? QPointF(place.left() + photo.x / sheet_->photo->width() * place.width(),
               place.top() + photo.y / sheet_->photo->height() * place.height())
                   : QPointF();
}

density::Point SheetCanvas::toPhoto(QPointF widget) const
{
    const auto place = area();
    if (!ready() || place.width() <= 0)
        return {};
    const double w = sheet_->photo->width(), h = sheet_->photo->height();
    return { std::clamp((widget.x() - place.left()) / place.width() * w, 0.0, w),
        std::clamp((widget.y() - place.top()) / place.height() * h, 0.0, h) };
}

std::optional<SheetRole> SheetCanvas::regionAt(int thing) const
{
    int i = 4;
    if (sheet_)
        for (const auto& [role, corners] : sheet_->regions)
            if (i++ == thing)
                return role;
    return {};
}

QString SheetCanvas::chosenWords() const
{
    const QString corners[]
        = { tr("top left corner"), tr("top right corner"), tr("bottom right corner"), tr("bottom left corner") };
    if (chosen_ >= 0 && chosen_ < 4)
        return corners[chosen_];
    const auto role = regionAt(chosen_);
    return role ? sheetRoleLabel(*role) : QString();
}

void SheetCanvas::tell()
{
    const auto words = chosenWords();
    setAccessibleDescription(words.isEmpty() ? hint_ : tr("Chosen: %1").arg(words));
}

void SheetCanvas::choose(int thing)
{
    chosen_ = thing;
    tell();
    update();
}

void SheetCanvas::move(double dx, double dy, bool resize)
{
    if (!ready() || chosen_ < 0)
        return;
    const double w = sheet_->photo->width(), h = sheet_->photo->height();
    if (chosen_ < 4) {
        auto& corner = sheet_->corners[size_t(chosen_)];
        corner = { std::clamp(corner.x + dx, 0.0, w), std::clamp(corner.y + dy, 0.0, h) };
    } else if (const auto role = regionAt(chosen_)) {
        auto& corners = sheet_->regions[*role];
        const auto &a = corners[0], &c = corners[2];
        const double width = c.x - a.x, height = c.y - a.y;
        if (resize)
            corners = density::rectangle(
                a.x, a.y, std::clamp(width + dx, smallest, w - a.x), std::clamp(height + dy, smallest, h - a.y));
        else
            corners = density::rectangle(
                std::clamp(a.x + dx, 0.0, w - width), std::clamp(a.y + dy, 0.0, h - height), width, height);
    }
    update();
    Q_EMIT marksChanged();
}

void SheetCanvas::paintRegion(QPainter& painter, SheetRole role, const density::Corners& corners) const
{
    const auto shape = polygon(*this, corners);
    outline(painter, shape, regionAt(chosen_) == role);
    const auto words = sheetRoleLabel(role);
    auto box = QRectF(painter.fontMetrics().boundingRect(words)).adjusted(-3, -1, 3, 1);
    box.moveTopLeft(shape.boundingRect().topLeft() + QPointF(2, 2));
    box.moveLeft(std::clamp(box.left(), 0.0, std::max(0.0, width() - box.width())));
    box.moveTop(std::clamp(box.top(), 0.0, std::max(0.0, height() - box.height())));
    painter.fillRect(box, theme_.sheet);
    painter.setPen(theme_.ink);
    painter.drawText(box, Qt::AlignCenter, words);
}

void SheetCanvas::paintLoupe(QPainter& painter) const
{
    density::Point at;
    if (chosen_ >= 0 && chosen_ < 4)
        at = sheet_->corners[size_t(chosen_)];
    else
        return;
    const double side = double(loupeSide) / loupeZoom;
    const auto place = toWidget(at);
    // In the corner of the widget that is farthest from the place.
    const QRectF box(place.x() < width() / 2.0 ? width() - loupeSide - 8 : 8,
        place.y() < height() / 2.0 ? height() - loupeSide - 8 : 8, loupeSide, loupeSide);
    painter.fillRect(box, theme_.paper);
    painter.save();
    painter.setClipRect(box);
    painter.drawImage(box, sheet_->photo->image, QRectF(at.x - side / 2, at.y - side / 2, side, side));
    painter.restore();
    outline(painter, QPolygonF(box), false);
    painter.setPen(QPen(Qt::white, 3));
    const auto c = box.center();
    painter.drawLine(c - QPointF(12, 0), c + QPointF(12, 0));
    painter.drawLine(c - QPointF(0, 12), c + QPointF(0, 12));
    painter.setPen(QPen(Qt::black, 1));
    painter.drawLine(c - QPointF(12, 0), c + QPointF(12, 0));
    painter.drawLine(c - QPointF(0, 12), c + QPointF(0, 12));
}

void SheetCanvas::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.fillRect(rect(), theme_.sheet);
    if (!ready()) {
        painter.setPen(theme_.quiet);
        painter.drawText(rect().adjusted(20, 20, -20, -20), Qt::AlignCenter | Qt::TextWordWrap,
            sheet_ && !sheet_->trouble.isEmpty() ? sheet_->trouble : hint_);
        return;
    }
    painter.setRenderHint(QPainter::Antialiasing);
    const auto place = area();
    const auto pixels = (place.size() * devicePixelRatioF()).toSize();
    if (shown_.size() != pixels)
        shown_ = sheet_->photo->image.scaled(pixels, Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
    painter.drawImage(place, shown_);
    outline(painter, polygon(*this, sheet_->corners), false);
    for (const auto& [role, corners] : sheet_->regions)
        paintRegion(painter, role, corners);
    for (int i = 0; i < 4; ++i) {
        const auto at = toWidget(sheet_->corners[size_t(i)]);
        const QRectF box(at - QPointF(handle, handle), QSizeF(2 * handle, 2 * handle));
        painter.setPen(QPen(Qt::black, 1));
        painter.setBrush(i == chosen_ ? theme_.blue : QColor(Qt::white));
        painter.drawRect(box);
        if (i == 0) { // the sheet's own top left
            painter.setBrush(i == chosen_ ? QColor(Qt::white) : QColor(Qt::black));
            painter.drawRect(box.adjusted(4, 4, -4, -4));
        }
    }
    if (drawing_)
        outline(painter, QPolygonF(QRectF(from_, to_).normalized()), true);
    if (chosen_ >= 0 && (hasFocus() || dragging_))
        paintLoupe(painter);
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme_.blue, 2));
        painter.drawRect(QRectF(rect()).adjusted(1, 1, -1, -1));
    }
}

void SheetCanvas::mousePressEvent(QMouseEvent* event)
{
    if (!ready() || event->button() != Qt::LeftButton)
        return;
    from_ = to_ = event->position();
    for (int i = 0; i < 4; ++i)
        if (const auto d = toWidget(sheet_->corners[size_t(i)]) - from_; std::hypot(d.x(), d.y()) <= near) {
            dragging_ = true;
            choose(i);
            return;
        }
    drawing_ = true;
    choose(-1);
}

void SheetCanvas::mouseMoveEvent(QMouseEvent* event)
{
    if (dragging_ && chosen_ >= 0) {
        sheet_->corners[size_t(chosen_)] = toPhoto(event->position());
        update();
    } else if (drawing_) {
        to_ = event->position();
        update();
    }
}

void SheetCanvas::mouseReleaseEvent(QMouseEvent* event)
{
    const bool drawn = std::exchange(drawing_, false), dragged = std::exchange(dragging_, false);
    if (!ready() || (!drawn && !dragged))
        return;
    if (drawn) {
        const auto a = toPhoto(from_), b = toPhoto(event->position());
        const double w = std::abs(a.x - b.x), h = std::abs(a.y - b.y);
        update();
        if (w < smallest || h < smallest)
            return;
        sheet_->regions[role_] = density::rectangle(std::min(a.x, b.x), std::min(a.y, b.y), w, h);
    }
    update();
    Q_EMIT marksChanged();
}

void SheetCanvas::keyPressEvent(QKeyEvent* event)
{
    if (!ready())
        return QWidget::keyPressEvent(event);
    const int things = 4 + int(sheet_->regions.size());
    const double step = event->modifiers() & Qt::ShiftModifier ? 10 : 1;
    const bool resize = event->modifiers() & Qt::ControlModifier;
    switch (event->key()) {
    case Qt::Key_PageDown:
        return choose((chosen_ + 1) % things);
    case Qt::Key_PageUp:
        return choose(chosen_ <= 0 ? things - 1 : chosen_ - 1);
    case Qt::Key_Left:
        return move(-step, 0, resize);
    case Qt::Key_Right:
        return move(step, 0, resize);
    case Qt::Key_Up:
        return move(0, -step, resize);
    case Qt::Key_Down:
        return move(0, step, resize);
    case Qt::Key_Insert: {
        const double w = sheet_->photo->width(), h = sheet_->photo->height();
        sheet_->regions[role_] = density::rectangle(0.4 * w, 0.4 * h, 0.2 * w, 0.2 * h);
        for (int i = 4; i < 4 + int(sheet_->regions.size()); ++i)
            if (regionAt(i) == role_)
                choose(i);
        Q_EMIT marksChanged();
        return;
    }
    case Qt::Key_Delete:
        if (const auto role = regionAt(chosen_)) {
            sheet_->regions.erase(*role);
            choose(-1);
            Q_EMIT marksChanged();
        }
        return;
    default:
        QWidget::keyPressEvent(event);
    }
}

void SheetCanvas::focusInEvent(QFocusEvent* event)
{
    // Whoever comes by the keyboard stands on a corner.
    if (ready() && chosen_ < 0 && event->reason() != Qt::MouseFocusReason)
        choose(0);
    QWidget::focusInEvent(event);
}

} // namespace washfast::ui
