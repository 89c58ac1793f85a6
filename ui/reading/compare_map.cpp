#include "ui/reading/compare_map.h"

#include "ui/common/heat_layer.h"

#include <QKeyEvent>
#include <QLocale>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr int legendHeight = 48, legendWidth = 260;
constexpr double cursorStep = 0.02; // of the sheet, for an arrow key
constexpr double readAround = 2; // mm

} // namespace

double roundTop(double largest)
{
    for (const double top : { 2.0, 5.0, 10.0, 20.0, 50.0 })
        if (largest <= top)
            return top;
    return 100;
}

CompareMap::CompareMap(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setMinimumSize(260, 220);
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAccessibleName(tr("Map of the colour differences; arrow keys read single places"));
}

void CompareMap::setMap(density::SheetPicture map, double top)
{
    map_ = std::move(map);
    top_ = top;
    cursor_.reset();
    draw();
}

void CompareMap::setTheme(const Theme& theme)
{
    theme_ = theme;
    draw();
}

void CompareMap::setMarks(std::vector<std::pair<QPointF, QString>> marks)
{
    marks_ = std::move(marks);
    update();
}

QColor CompareMap::colourFor(double difference) const
{
    return onRamp(theme_.ramp, std::clamp(difference / top_, 0.0, 1.0));
}

void CompareMap::draw()
{
    picture_ = QImage(std::max(1, map_.width), std::max(1, map_.height), QImage::Format_RGB32);
    picture_.fill(theme_.paper);
    for (int y = 0; y < map_.height; ++y)
        for (int x = 0; x < map_.width; ++x) {
            const double value = map_.at(x, y);
            // Where nothing was compared: a hatch, so that it is not taken for a small difference.
            const auto colour = std::isfinite(value) ? colourFor(value) : (x + y) % 8 < 2 ? theme_.edge : theme_.paper;
            reinterpret_cast<QRgb*>(picture_.scanLine(y))[x] = colour.rgb();
        }
    update();
}

QRectF CompareMap::area() const
{
    const QRectF room(1, 1, width() - 2, height() - legendHeight - 10);
    const auto size = QSizeF(picture_.size()).scaled(room.size(), Qt::KeepAspectRatio);
    return { room.center() - QPointF(size.width(), size.height()) / 2, size };
}

std::optional<double> CompareMap::at(QPointF place) const
{
    if (map_.values.empty() || place.x() < 0 || place.y() < 0 || place.x() > 1 || place.y() > 1)
        return {};
    const int reach = std::max(0, int(std::lround(readAround / 2 / map_.mm_per_pixel)));
    const int cx = std::min(int(place.x() * map_.width), map_.width - 1);
    const int cy = std::min(int(place.y() * map_.height), map_.height - 1);
    double sum = 0, n = 0;
    for (int y = std::max(0, cy - reach); y <= std::min(map_.height - 1, cy + reach); ++y)
        for (int x = std::max(0, cx - reach); x <= std::min(map_.width - 1, cx + reach); ++x)
            if (std::isfinite(map_.at(x, y))) {
                sum += map_.at(x, y);
                n += 1;
            }
    return n > 0 ? std::optional(sum / n) : std::nullopt;
}

void CompareMap::setCursorAt(QPointF place)
{
    cursor_ = QPointF(std::clamp(place.x(), 0.0, 1.0), std::clamp(place.y(), 0.0, 1.0));
    const QLocale locale;
    const auto value = at(*cursor_);
    says_ = tr("%1 % from the left, %2 % from the top: %3")
                .arg(locale.toString(100 * cursor_->x(), 'f', 0), locale.toString(100 * cursor_->y(), 'f', 0),
                    value ? tr("CIEDE2000 %1").arg(locale.toString(*value, 'f', 1)) : tr("not compared"));
    setAccessibleDescription(says_);
    update();
    Q_EMIT read(says_);
}

void CompareMap::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    if (map_.values.empty())
        return;
    const auto place = area();
    painter.drawImage(place, picture_);
    painter.setPen(theme_.edge);
    painter.drawRect(place);
    painter.setFont(textFont(font(), TextSize::Small));
    const auto spot = [&](QPointF own) {
        return QPointF(place.left() + own.x() * place.width(), place.top() + own.y() * place.height());
    };
    for (const auto& [own, letter] : marks_) {
        auto box = QRectF(painter.fontMetrics().boundingRect(letter)).adjusted(-3, -1, 3, 1);
        box.moveCenter(spot(own));
        painter.fillRect(box, theme_.sheet);
        painter.setPen(theme_.edge);
        painter.drawRect(box);
        painter.setPen(theme_.ink);
        painter.drawText(box, Qt::AlignCenter, letter);
    }
    if (cursor_)
        for (const auto& [colour, wide] : { std::pair(Qt::white, 4), std::pair(Qt::black, 2) }) {
            const auto c = spot(*cursor_);
            painter.setPen(QPen(colour, wide));
            painter.drawLine(c - QPointF(8, 0), c + QPointF(8, 0));
            painter.drawLine(c - QPointF(0, 8), c + QPointF(0, 8));
        }
    const QLocale locale;
    const QRectF legend(1, height() - legendHeight, std::min<double>(legendWidth, width() - 2), legendHeight);
    paintRampLegend(painter, legend, theme_.ramp, tr("Difference (CIEDE2000)"), locale.toString(0),
        tr("%1 and more").arg(locale.toString(top_, 'f', 0)), theme_);
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme_.blue, 2));
        painter.drawRect(place.adjusted(-1, -1, 1, 1));
    }
}

void CompareMap::mouseMoveEvent(QMouseEvent* event)
{
    const auto place = area();
    if (place.contains(event->position()) && !map_.values.empty())
        setCursorAt({ (event->position().x() - place.left()) / place.width(),
            (event->position().y() - place.top()) / place.height() });
}

void CompareMap::keyPressEvent(QKeyEvent* event)
{
    const auto from = cursor_.value_or(QPointF(0.5, 0.5));
    switch (event->key()) {
    case Qt::Key_Left:
        return setCursorAt(from - QPointF(cursorStep, 0));
    case Qt::Key_Right:
        return setCursorAt(from + QPointF(cursorStep, 0));
    case Qt::Key_Up:
        return setCursorAt(from - QPointF(0, cursorStep));
    case Qt::Key_Down:
        return setCursorAt(from + QPointF(0, cursorStep));
    default:
        QWidget::keyPressEvent(event);
    }
}

void CompareMap::focusInEvent(QFocusEvent* event)
{
    if (!cursor_ && !map_.values.empty() && event->reason() != Qt::MouseFocusReason)
        setCursorAt({ 0.5, 0.5 });
    QWidget::focusInEvent(event);
}

} // namespace washfast::ui
