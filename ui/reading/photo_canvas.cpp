#include "ui/reading/photo_canvas.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>
#include <cmath>

namespace washfast::ui {

namespace {
constexpr double near = 9; // widget pixels around a corner that take hold of it
constexpr double smallest = 3; // photo pixels, of a region
constexpr int loupeSide = 150, loupeTimes = 6;

QPolygonF polygon(const PhotoCanvas& canvas, const density::Corners& corners)
{
    QPolygonF all;
    for (const auto& corner : corners)
        all << canvas.toWidget(corner);
    return all;
}
}

PhotoCanvas::PhotoCanvas(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(320, 240);
    setAccessibleName(tr("Photo with its regions"));
    setAccessibleDescription(tr("Page down chooses the next region or corner, arrows move it, Ctrl and arrows change "
                                "its size, Insert adds a region, Delete removes it."));
}

void PhotoCanvas::setPhoto(MarkedPhoto* photo, const QString& hint)
{
    photo_ = photo;
    hint_ = hint;
    overlay_ = {};
    drag_ = Drag::None;
    choose(-1);
    fit();
}

void PhotoCanvas::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

void PhotoCanvas::setOverlay(const QImage& overlay)
{
    overlay_ = overlay;
    update();
}

void PhotoCanvas::fit()
{
    fitted_ = true;
    if (photo_ && !photo_->shown.isNull()) {
        const auto size = photo_->shown.size();
        zoom_ = std::max(0.001, std::min(double(width()) / size.width(), double(height()) / size.height()));
        origin_ = { (width() - zoom_ * size.width()) / 2, (height() - zoom_ * size.height()) / 2 };
    }
    update();
}

QPointF PhotoCanvas::toWidget(density::Point photo) const
{
    return { origin_.x() + zoom_ * photo.x, origin_.y() + zoom_ * photo.y };
}

density::Point PhotoCanvas::toPhoto(QPointF widget) const
{
    return { (widget.x() - origin_.x()) / zoom_, (widget.y() - origin_.y()) / zoom_ };
}

int PhotoCanvas::things() const
{
    return photo_ ? int(photo_->marks.size() + 4 * photo_->outlines.size()) : 0;
}

density::Point* PhotoCanvas::cornerOf(int thing) const
{
    const int corner = photo_ ? thing - int(photo_->marks.size()) : -1;
    if (corner < 0 || corner >= 4 * int(photo_->outlines.size()))
        return nullptr;
    return &photo_->outlines[size_t(corner / 4)].corners[size_t(corner % 4)];
}

int PhotoCanvas::thingAt(QPointF at) const
{
    for (int i = things() - 1; i >= 0; --i) // corners lie above regions
        if (const auto* corner = cornerOf(i)) {
            if (QLineF(toWidget(*corner), at).length() <= near)
                return i;
        } else if (polygon(*this, photo_->marks[size_t(i)].corners).containsPoint(at, Qt::OddEvenFill))
            return i;
    return -1;
}

void PhotoCanvas::choose(int thing)
{
    thing = thing < things() ? thing : -1;
    if (thing != chosen_) {
        chosen_ = thing;
        Q_EMIT chosenChanged(chosen_);
    }
    update();
}

bool PhotoCanvas::moveThing(int thing, double dx, double dy)
{
    if (auto* corner = cornerOf(thing)) {
        const auto before = *corner;
        *corner = { corner->x + dx, corner->y + dy };
        const auto outline = size_t(thing - int(photo_->marks.size())) / 4;
        if (density::isConvex(photo_->outlines[outline].corners))
            return true;
        *corner = before; // corners may not cross
        return false;
    }
    if (thing < 0 || thing >= things())
        return false;
    for (auto& corner : photo_->marks[size_t(thing)].corners)
        corner = { corner.x + dx, corner.y + dy };
    return true;
}

bool PhotoCanvas::resizeThing(int thing, double dx, double dy)
{
    if (thing < 0 || thing >= int(photo_->marks.size()))
        return false;
    auto corners = photo_->marks[size_t(thing)].corners;
    corners[1].x += dx;
    corners[2] = { corners[2].x + dx, corners[2].y + dy };
    corners[3].y += dy;
    if (corners[1].x - corners[0].x < smallest || corners[3].y - corners[0].y < smallest || !density::isConvex(corners))
        return false;
    photo_->marks[size_t(thing)].corners = corners;
    return true;
}

void PhotoCanvas::removeChosen()
{
    if (chosen_ < 0)
        return;
    const auto marks = photo_->marks.size();
    if (size_t(chosen_) < marks)
        photo_->marks.erase(photo_->marks.begin() + chosen_);
    else
        photo_->outlines.erase(photo_->outlines.begin() + (chosen_ - int(marks)) / 4);
    choose(-1);
    Q_EMIT marksChanged();
}

void PhotoCanvas::insertMark()
{
    const auto at = toPhoto(rect().center());
    const double half = std::max(smallest, 20 / zoom_);
    photo_->marks.push_back(
        { role_, drawnBetween(*photo_, { at.x - half, at.y - half }, { at.x + half, at.y + half }) });
    choose(int(photo_->marks.size()) - 1);
    Q_EMIT marksChanged();
}

void PhotoCanvas::addOutline(qint64 print)
{
    if (!photo_ || photo_->shown.isNull())
        return;
    const double w = photo_->shown.width(), h = photo_->shown.height();
    photo_->outlines.push_back({ density::rectangle(0.15 * w, 0.15 * h, 0.7 * w, 0.7 * h), print });
    choose(things() - 4);
    setFocus();
    Q_EMIT marksChanged();
}

void PhotoCanvas::zoomAt(QPointF at, double factor)
{
    const auto still = toPhoto(at);
    zoom_ = std::clamp(zoom_ * factor, 0.01, 40.0);
    fitted_ = false;
    origin_ += at - toWidget(still);
    update();
}

void PhotoCanvas::resizeEvent(QResizeEvent*)
{
    if (fitted_)
        fit();
}

void PhotoCanvas::mousePressEvent(QMouseEvent* event)
{
    if (!photo_ || photo_->shown.isNull())
        return;
    from_ = to_ = event->position();
    moved_ = false;
    if (event->button() != Qt::LeftButton) {
        drag_ = Drag::Pan;
        return;
    }
    choose(thingAt(from_));
    drag_ = chosen_ >= 0 ? Drag::Thing : Drag::Draw;
}

void PhotoCanvas::mouseMoveEvent(QMouseEvent* event)
{
    if (drag_ == Drag::None)
        return;
    const auto step = event->position() - to_;
    to_ = event->position();
    if (drag_ == Drag::Pan) {
        origin_ += step;
        fitted_ = false;
    } else if (drag_ == Drag::Thing)
        moved_ = moveThing(chosen_, step.x() / zoom_, step.y() / zoom_) || moved_;
    update();
}

void PhotoCanvas::mouseReleaseEvent(QMouseEvent* event)
{
    const auto drag = drag_;
    drag_ = Drag::None;
    if (!photo_)
        return;
    if (drag == Drag::Draw) {
        const auto a = toPhoto(from_), b = toPhoto(event->position());
        if (std::abs(a.x - b.x) >= smallest && std::abs(a.y - b.y) >= smallest) {
            photo_->marks.push_back({ role_, drawnBetween(*photo_, a, b) });
            choose(int(photo_->marks.size()) - 1);
            moved_ = true;
        }
    }
    update();
    if (moved_)
        Q_EMIT marksChanged();
}

void PhotoCanvas::wheelEvent(QWheelEvent* event)
{
    if (photo_)
        zoomAt(event->position(), std::pow(1.2, event->angleDelta().y() / 120.0));
    event->accept();
}

void PhotoCanvas::keyPressEvent(QKeyEvent* event)
{
    if (!photo_ || photo_->shown.isNull())
        return QWidget::keyPressEvent(event);
    const double far = event->modifiers().testFlag(Qt::ShiftModifier) ? 10 : 1;
    const auto arrow = [&](double dx, double dy) {
        bool done = false;
        if (chosen_ < 0) {
            origin_ -= QPointF(dx, dy) * 40;
            fitted_ = false;
        } else if (event->modifiers().testFlag(Qt::ControlModifier))
            done = resizeThing(chosen_, dx * far, dy * far);
        else
            done = moveThing(chosen_, dx * far, dy * far);
        update();
        if (done)
            Q_EMIT marksChanged();
    };
    const int all = things();
    switch (event->key()) {
    case Qt::Key_Left:
        return arrow(-1, 0);
    case Qt::Key_Right:
        return arrow(1, 0);
    case Qt::Key_Up:
        return arrow(0, -1);
    case Qt::Key_Down:
        return arrow(0, 1);
    case Qt::Key_PageDown:
        return choose(all > 0 ? (chosen_ + 1) % all : -1);
    case Qt::Key_PageUp:
        return choose(chosen_ > 0 ? chosen_ - 1 : all - 1);
    case Qt::Key_Insert:
        return insertMark();
    case Qt::Key_Delete:
        return removeChosen();
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        return zoomAt(rect().center(), 1.25);
    case Qt::Key_Minus:
        return zoomAt(rect().center(), 0.8);
    case Qt::Key_Home:
        return fit();
    case Qt::Key_Escape:
        return choose(-1); // never closes the window, with which the marks would be gone
    default:
        break;
    }
    QWidget::keyPressEvent(event);
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
    // Black under white is seen on any photo; what is chosen is thicker.
    const auto outline = [&](const QPolygonF& shape, bool strong, Qt::PenStyle style) {
        painter.setPen(QPen(Qt::black, strong ? 5 : 3));
        painter.drawPolygon(shape);
        painter.setPen(QPen(Qt::white, strong ? 3 : 1.2, style));
        painter.drawPolygon(shape);
    };
    for (size_t i = 0; i < photo_->outlines.size(); ++i) {
        outline(polygon(*this, photo_->outlines[i].corners), false, Qt::DashLine);
        for (int k = 0; k < 4; ++k) {
            const int thing = int(photo_->marks.size() + 4 * i) + k;
            painter.setPen(QPen(Qt::black, 1.5));
            painter.setBrush(thing == chosen_ ? theme_.rust : QColor(Qt::white));
            painter.drawEllipse(toWidget(*cornerOf(thing)), thing == chosen_ ? 7 : 5, thing == chosen_ ? 7 : 5);
            painter.setBrush(Qt::NoBrush);
        }
    }
    for (size_t i = 0; i < photo_->marks.size(); ++i) {
        const auto shape = polygon(*this, photo_->marks[i].corners);
        outline(shape, int(i) == chosen_, Qt::SolidLine);
        const auto number = QString::number(i + 1);
        const QRectF label(shape.boundingRect().topLeft(),
            QSizeF(fontMetrics().horizontalAdvance(number) + 8, fontMetrics().height()));
        painter.fillRect(label, theme_.sheet);
        painter.setPen(theme_.ink);
        painter.drawText(label, Qt::AlignCenter, number);
    }
    if (drag_ == Drag::Draw)
        outline(polygon(*this, drawnBetween(*photo_, toPhoto(from_), toPhoto(to_))), true, Qt::SolidLine);
    paintLoupe(painter);
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme_.blue, 2));
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

} // namespace washfast::ui
