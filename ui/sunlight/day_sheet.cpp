#include "ui/sunlight/day_sheet.h"

#include "ui/sunlight/day_paint.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <algorithm>
#include <cmath>

namespace washfast::ui::sunlight {

DaySheet::DaySheet(const Theme& theme, QWidget* parent)
    : PaintedSheet(theme, parent)
{
    setMinimumSize(520, 330);
    setAccessibleName(tr("The day's ultraviolet"));
    setToolTip(tr("Left and Right move by five minutes, Page Up and Page Down by an hour, Home and End to the ends."));
}

void DaySheet::setDay(std::shared_ptr<const DayState> day)
{
    day_ = std::move(day);
    setAccessibleName(day_->heading());
    setAccessibleDescription(
        QStringList { day_->sunSentence(), day_->bestSentence(), day_->caution() }.join(QLatin1Char(' ')));
    if (current_)
        setCurrent(current_);
    again();
}

void DaySheet::setCurrent(std::optional<double> minute)
{
    if (minute && day_)
        minute = day_->near(std::clamp(*minute, 0.0, day_->length_min())).minute;
    current_ = minute;
    again();
    Q_EMIT pointedAt(current_ && day_ ? day_->readout(*current_) : QString());
}

double DaySheet::placeOf(double minute) const
{
    const auto across = dayAcross(QRectF(QPointF(), QSizeF(viewport()->size())));
    return across.left() + across.width() * minute / day_->length_min();
}

std::optional<double> DaySheet::minuteAt(double x) const
{
    const auto across = dayAcross(QRectF(QPointF(), QSizeF(viewport()->size())));
    if (!day_ || x < across.left() - 3 || x > across.right() + 3)
        return std::nullopt;
    return std::clamp((x - across.left()) / across.width() * day_->length_min(), 0.0, day_->length_min());
}

void DaySheet::keyPressEvent(QKeyEvent* event)
{
    if (!day_) {
        PaintedSheet::keyPressEvent(event);
        return;
    }
    const double noon = day_->minuteOf(day_->sun().solar_noon);
    const auto move = [&](double by) {
        by_pointer_ = false;
        setCurrent(current_ ? *current_ + by : noon);
    };
    switch (event->key()) {
    case Qt::Key_Right:
        return move(DayState::stepMinutes);
    case Qt::Key_Left:
        return move(-DayState::stepMinutes);
    case Qt::Key_PageDown:
        return move(60);
    case Qt::Key_PageUp:
        return move(-60);
    case Qt::Key_Home:
        return setCurrent(0.0);
    case Qt::Key_End:
        return setCurrent(day_->length_min());
    case Qt::Key_Escape:
        if (current_)
            return setCurrent({});
        break;
    default:
        break;
    }
    PaintedSheet::keyPressEvent(event);
}

void DaySheet::mouseMoveEvent(QMouseEvent* event)
{
    PaintedSheet::mouseMoveEvent(event);
    by_pointer_ = true;
    if (day_)
        setCurrent(minuteAt(event->position().x()));
}

void DaySheet::mousePressEvent(QMouseEvent* event)
{
    PaintedSheet::mousePressEvent(event);
    setFocus(Qt::MouseFocusReason);
    if (day_)
        setCurrent(minuteAt(event->position().x()));
}

void DaySheet::leaveEvent(QEvent* event)
{
    PaintedSheet::leaveEvent(event);
    if (by_pointer_ && day_)
        setCurrent({});
}

void DaySheet::paintInto(QPainter& painter, const QRectF& area, bool live) const
{
    if (day_)
        DayPaint(painter, theme(), *day_, area).paint(live ? current_ : std::nullopt);
}

} // namespace washfast::ui::sunlight
