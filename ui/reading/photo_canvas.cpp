#include "ui/reading/photo_canvas.h"

#include "ui/reading/marked_rows.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>
#include <cmath>

namespace washfast::ui {

namespace {
constexpr double near = 9; // widget pixels around a corner that take hold of it
constexpr double smallest = 3; // photo pixels, of a region
constexpr double shortestRow = 12; // photo pixels
constexpr int usualPlaces = 8; // of a row, for its width while nobody knows their number

/// Longer by `along` at its end, and wider by `across`, half on either side.
bool resizeRow(density::Corners& corners, double along, double across)
{
    const auto stretch = [](density::Point& from, density::Point& to, double at_from, double at_to) {
        const double dx = to.x - from.x, dy = to.y - from.y, length = std::hypot(dx, dy);
        if (length + at_from + at_to < smallest)
            return false;
        from = { from.x - at_from * dx / length, from.y - at_from * dy / length };
        to = { to.x + at_to * dx / length, to.y + at_to * dy / length };
        return true;
    };
    return stretch(corners[0], corners[1], 0, along) && stretch(corners[3], corners[2], 0, along)
        && stretch(corners[0], corners[3], across / 2, across / 2)
        && stretch(corners[1], corners[2], across / 2, across / 2);
}
} // namespace

PhotoCanvas::PhotoCanvas(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(320, 240);
    setAccessibleName(tr("Photo with its regions"));
    setAccessibleDescription(tr("Page down chooses the next region or corner, arrows move it, Ctrl and arrows "
                                "change its size, Insert adds a region or a row, Delete removes it."));
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

QPolygonF PhotoCanvas::shapeOf(const density::Corners& corners) const
{
    QPolygonF all;
    for (const auto& corner : corners)
        all << toWidget(corner);
    return all;
}

int PhotoCanvas::firstOfRows() const
{
    return photo_ ? int(photo_->marks.size() + 4 * photo_->outlines.size()) : 0;
}

int PhotoCanvas::things() const
{
    return photo_ ? firstOfRows() + 5 * int(photo_->rows.size()) : 0;
}

std::optional<size_t> PhotoCanvas::chosenOutline() const
{
    const int corner = photo_ ? chosen_ - int(photo_->marks.size()) : -1;
    return corner >= 0 && chosen_ < firstOfRows() ? std::optional(size_t(corner / 4)) : std::nullopt;
}

std::optional<size_t> PhotoCanvas::chosenRow() const
{
    return photo_ && chosen_ >= firstOfRows() ? std::optional(size_t(chosen_ - firstOfRows()) / 5) : std::nullopt;
}

void PhotoCanvas::chooseRow(size_t row)
{
    choose(firstOfRows() + 5 * int(row));
}

density::Corners* PhotoCanvas::cornersOf(int thing) const
{
    if (thing < 0 || thing >= things())
        return nullptr;
    const int outlines = thing - int(photo_->marks.size()), rows = thing - firstOfRows();
    return outlines < 0 ? &photo_->marks[size_t(thing)].corners
        : rows < 0      ? &photo_->outlines[size_t(outlines / 4)].corners
                        : &photo_->rows[size_t(rows / 5)].corners;
}

density::Point* PhotoCanvas::cornerOf(int thing) const
{
    auto* corners = cornersOf(thing);
    const int outlines = corners ? thing - int(photo_->marks.size()) : -1, rows = corners ? thing - firstOfRows() : -1;
    if (outlines < 0 || (rows >= 0 && rows % 5 == 0))
        return nullptr;
    return &(*corners)[size_t(rows < 0 ? outlines % 4 : rows % 5 - 1)];
}

int PhotoCanvas::thingAt(QPointF at) const
{
    for (int i = things() - 1; i >= 0; --i) // corners lie above regions and rows
        if (const auto* corner = cornerOf(i); corner && QLineF(toWidget(*corner), at).length() <= near)
            return i;
    for (int i = things() - 1; i >= 0; --i)
        if (!cornerOf(i) && shapeOf(*cornersOf(i)).containsPoint(at, Qt::OddEvenFill))
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
    auto* corners = cornersOf(thing);
    if (!corners)
        return false;
    if (auto* corner = cornerOf(thing)) {
        const auto before = *corner;
        *corner = { corner->x + dx, corner->y + dy };
        if (density::isConvex(*corners))
            return true;
        *corner = before; // corners may not cross
        return false;
    }
    for (auto& corner : *corners)
        corner = { corner.x + dx, corner.y + dy };
    return true;
}

bool PhotoCanvas::resizeThing(int thing, double dx, double dy)
{
    if (!cornersOf(thing) || cornerOf(thing))
        return false;
    auto corners = *cornersOf(thing);
    if (thing >= firstOfRows()) {
        if (!resizeRow(corners, dx, dy))
            return false;
    } else {
        corners[1].x += dx;
        corners[2] = { corners[2].x + dx, corners[2].y + dy };
        corners[3].y += dy;
        if (corners[1].x - corners[0].x < smallest || corners[3].y - corners[0].y < smallest)
            return false;
    }
    if (!density::isConvex(corners))
        return false;
    *cornersOf(thing) = corners;
    return true;
}

void PhotoCanvas::removeChosen()
{
    if (chosen_ < 0)
        return;
    if (const auto row = chosenRow())
        photo_->rows.erase(photo_->rows.begin() + int(*row));
    else if (const auto outline = chosenOutline())
        photo_->outlines.erase(photo_->outlines.begin() + int(*outline));
    else
        photo_->marks.erase(photo_->marks.begin() + chosen_);
    choose(-1);
    Q_EMIT marksChanged();
}

density::Corners PhotoCanvas::drawn(density::Point from, density::Point to) const
{
    if (!drawsRow())
        return drawnBetween(*photo_, from, to);
    MarkedRow row;
    row.kind = role_ == MarkRole::PatchRow ? MarkedRow::Kind::Patches : MarkedRow::Kind::Wedge;
    const int places = countOf(row, photo_->references);
    return stripBetween(*photo_, from, to, 1.0 / (places > 1 ? places : usualPlaces));
}

void PhotoCanvas::addDrawn(const density::Corners& corners)
{
    if (drawsRow()) {
        MarkedRow row;
        row.kind = role_ == MarkRole::PatchRow ? MarkedRow::Kind::Patches : MarkedRow::Kind::Wedge;
        row.corners = corners;
        photo_->rows.push_back(row);
        chooseRow(photo_->rows.size() - 1);
    } else {
        photo_->marks.push_back({ role_, corners });
        choose(int(photo_->marks.size()) - 1);
    }
}

void PhotoCanvas::insertMark()
{
    const auto at = toPhoto(rect().center());
    const double half = std::max(smallest, (drawsRow() ? 120 : 20) / zoom_);
    const double down = drawsRow() ? 0 : half;
    addDrawn(drawn({ at.x - half, at.y - down }, { at.x + half, at.y + down }));
    Q_EMIT marksChanged();
}

void PhotoCanvas::addOutline(qint64 print)
{
    if (!photo_ || photo_->shown.isNull())
        return;
    const double w = photo_->shown.width(), h = photo_->shown.height();
    photo_->outlines.push_back({ density::rectangle(0.15 * w, 0.15 * h, 0.7 * w, 0.7 * h), print });
    choose(firstOfRows() - 4);
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
        const double wide = std::abs(a.x - b.x), high = std::abs(a.y - b.y);
        if (drawsRow() ? std::hypot(wide, high) >= shortestRow : wide >= smallest && high >= smallest) {
            addDrawn(drawn(a, b));
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

} // namespace washfast::ui
