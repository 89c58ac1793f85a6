#include "ui/shelf/age_plot.h"

#include <QLocale>
#include <QPainter>
#include <algorithm>

namespace washfast::ui {

namespace {
constexpr int plotWidth = 300, plotHeight = 130;
constexpr double leastHours = 1, leastDensity = 0.5;
}

AgePlot::AgePlot(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setFixedSize(plotWidth, plotHeight);
    setAccessibleName(tr("Net density against the age of the mix"));
}

void AgePlot::setPoints(std::vector<chemistry::AgePoint> points)
{
    points_ = std::move(points);
    QStringList words;
    for (const auto& point : points_)
        words << tr("%1 h: %2")
                     .arg(QLocale().toString(point.age_h, 'f', 1), QLocale().toString(point.net_density, 'f', 2));
    setAccessibleDescription(words.join(QStringLiteral("; ")));
    setToolTip(points_.empty()
            ? QString()
            : tr("Net density against the age of the mix when coated, %n print(s)", nullptr, int(points_.size())));
    update();
}

void AgePlot::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

void AgePlot::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(textFont(font(), TextSize::Small));
    const QFontMetricsF metrics(painter.font());
    const QRectF area(38, 18, width() - 48, height() - 18 - 2 * metrics.height() - 6);
    painter.setPen(theme_.quiet);
    painter.drawText(QRectF(0, 0, width(), 16), Qt::AlignLeft | Qt::AlignVCenter, tr("Net density"));
    painter.setPen(QPen(theme_.edge, 1));
    painter.drawLine(area.bottomLeft(), area.bottomRight());
    painter.drawLine(area.bottomLeft(), area.topLeft());
    painter.setPen(theme_.quiet);
    painter.drawText(QRectF(0, height() - metrics.height(), width(), metrics.height()), Qt::AlignRight,
        tr("age of the mix when coated, h"));
    if (points_.empty()) {
        painter.drawText(area, Qt::AlignCenter | Qt::TextWordWrap, tr("No print of it has both yet."));
        return;
    }
    double hours = leastHours, density = leastDensity;
    for (const auto& point : points_) {
        hours = std::max(hours, point.age_h);
        density = std::max(density, point.net_density);
    }
    for (const double share : { 0.0, 0.5, 1.0 }) {
        const double x = area.left() + share * area.width(), y = area.bottom() - share * area.height();
        painter.setPen(theme_.quiet);
        painter.drawText(QRectF(x - 30, area.bottom() + 3, 60, metrics.height()), Qt::AlignHCenter | Qt::AlignTop,
            QLocale().toString(share * hours, 'f', hours < 10 ? 1 : 0));
        painter.drawText(QRectF(0, y - metrics.height() / 2, 34, metrics.height()), Qt::AlignRight | Qt::AlignVCenter,
            QLocale().toString(share * density, 'f', 2));
    }
    painter.setPen(QPen(theme_.sheet, 1));
    painter.setBrush(theme_.blue);
    for (const auto& point : points_)
        painter.drawEllipse(QPointF(area.left() + point.age_h / hours * area.width(),
                                area.bottom() - std::max(0.0, point.net_density) / density * area.height()),
            3.5, 3.5);
}

} // namespace washfast::ui
