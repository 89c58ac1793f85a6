#include "ui/sunlight/year_sheet.h"

#include "ui/common/heat_layer.h"
#include "ui/sunlight/words.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::ui::sunlight {

namespace {
constexpr double yearLeft = 64, yearRight = 18;
constexpr double legendWidth = 230;
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
} // namespace

YearSheet::YearSheet(const Theme& theme, QWidget* parent)
    : PaintedSheet(theme, parent)
{
    setMinimumSize(520, 330);
    setToolTip(tr("Arrow keys walk through weeks and hours; Enter or a click chooses the hour."));
}

void YearSheet::describe()
{
    if (!year_)
        return;
    setAccessibleName(year_->heading());
    setAccessibleDescription(year_->printableSentence(hour_, within_));
}

void YearSheet::setYear(std::shared_ptr<const YearState> year)
{
    year_ = std::move(year);
    if (current_)
        setCurrent(current_);
    describe();
    again();
}

void YearSheet::setHour(int row)
{
    hour_ = std::clamp(row, 0, YearState::rows - 1);
    describe();
    again();
}

void YearSheet::setWithin(double minutes)
{
    within_ = minutes;
    describe();
    again();
}

void YearSheet::setCurrent(std::optional<Cell> cell)
{
    if (cell && year_) {
        const auto lit = year_->litRows();
        cell = Cell { std::clamp(cell->week, 1, year_->weeks()), std::clamp(cell->row, lit.first, lit.second) };
    }
    current_ = cell;
    again();
    Q_EMIT pointedAt(current_ && year_ ? year_->readout(current_->week, current_->row) : QString());
}

YearSheet::Frames YearSheet::frames(const QRectF& area) const
{
    const auto small = QFontMetricsF(textFont(font(), TextSize::Small));
    const double text = small.height();
    const double top = area.top() + 3 * text + 16;
    const double room = std::max(80.0, area.height() - (3 * text + 16) - (3 * text + 26));
    const auto lit = year_->litRows();
    const double weeks = year_->weeks() + 0.5;
    const QRectF map(area.left() + yearLeft, top, area.width() - yearLeft - yearRight, room * 0.66);
    const QRectF hour(map.left(), map.bottom() + 2 * text + 14, map.width(), room * 0.34);
    const double least = std::min(year_->quickest_min().value_or(10) * 0.8, within_ * 0.7);
    return { { map, 0.5, weeks, double(lit.first), double(lit.second + 1) },
        { hour, 0.5, weeks, std::log10(least), std::log10(longestUseful_min) } };
}

QPointF YearSheet::placeOf(Cell cell) const
{
    return frames(QRectF(QPointF(), QSizeF(viewport()->size()))).map.toPlace({ double(cell.week), cell.row + 0.5 });
}

std::optional<YearSheet::Cell> YearSheet::cellAt(const QPointF& place) const
{
    if (!year_)
        return std::nullopt;
    const auto plots = frames(QRectF(QPointF(), QSizeF(viewport()->size())));
    if (plots.map.area.contains(place)) {
        const auto value = plots.map.toValue(place);
        return Cell { int(std::lround(value.x())), int(std::floor(value.y())) };
    }
    if (plots.hour.area.contains(place))
        return Cell { int(std::lround(plots.hour.toValue(place).x())), hour_ };
    return std::nullopt;
}

double YearSheet::shade(double minutes) const
{
    const double least = std::log10(year_->quickest_min().value_or(1));
    const double most = std::log10(longestUseful_min);
    return most > least ? (most - std::log10(std::max(minutes, 1e-3))) / (most - least) : 1;
}

bool YearSheet::quick(int week, int row) const
{
    if (week < 1 || week > year_->weeks() || row < 0 || row >= YearState::rows)
        return false;
    const auto& cell = year_->cell(week, row);
    return cell && cell->needed.minutes && *cell->needed.minutes <= within_;
}

std::vector<AxisMark> YearSheet::months() const
{
    std::vector<AxisMark> marks;
    for (int month = 1; month <= 12; ++month) {
        const QDate first(year_->year(), month, 1);
        const double week = 0.5 + double(year_->monday(1).daysTo(first)) / 7.0;
        if (week >= 0.5)
            marks.push_back({ week, QLocale().toString(first, QStringLiteral("d MMM")) });
    }
    return marks;
}

void YearSheet::paintInto(QPainter& painter, const QRectF& area, bool live) const
{
    if (!year_)
        return;
    const auto body = painter.font();
    auto bold = body;
    bold.setBold(true);
    painter.setFont(bold);
    painter.setPen(theme().ink);
    painter.drawText(
        QRectF(area.left() + 12, area.top() + 7, area.width() - 24 - legendWidth - 20, painter.fontMetrics().height()),
        Qt::AlignLeft,
        painter.fontMetrics().elidedText(year_->heading(), Qt::ElideRight, int(area.width() - 24 - legendWidth - 20)));
    painter.setFont(textFont(body, TextSize::Small));
    const double text = painter.fontMetrics().height();
    auto stops = theme().ramp;
    std::reverse(stops.begin(), stops.end()); // quick is deep
    paintRampLegend(painter, QRectF(area.right() - legendWidth - yearRight, area.top() + 4, legendWidth, 3 * text + 4),
        stops, Words::tr("minutes needed"), minutesFigure(year_->quickest_min().value_or(1)),
        minutesFigure(longestUseful_min), theme());
    painter.setFont(textFont(body, TextSize::Small));
    painter.setPen(theme().quiet);
    painter.drawText(QRectF(area.left() + 12, area.top() + 9 + text * 1.2, area.width() - 24 - legendWidth - 20, text),
        Qt::AlignLeft,
        painter.fontMetrics().elidedText(
            Words::tr("Outlined: within %1. Empty: over 4 h, or the sun is down.").arg(minutesWords(within_)),
            Qt::ElideRight, int(area.width() - 24 - legendWidth - 20)));
    const auto plots = frames(area);
    paintMap(painter, plots.map);
    paintHour(painter, plots.hour);
    if (!live || !current_)
        return;
    const auto cell = QRectF(plots.map.toPlace({ current_->week - 0.5, double(current_->row) }),
        plots.map.toPlace({ current_->week + 0.5, current_->row + 1.0 }))
                          .normalized();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme().sheet, 4));
    painter.drawRect(cell.adjusted(-2, -2, 2, 2));
    painter.setPen(QPen(theme().ink, 2));
    painter.drawRect(cell.adjusted(-2, -2, 2, 2));
    const double x = plots.hour.toPlace({ double(current_->week), 0 }).x();
    painter.setPen(QPen(theme().ink, 1));
    painter.drawLine(QPointF(x, plots.hour.area.top()), QPointF(x, plots.hour.area.bottom()));
}

void YearSheet::paintMap(QPainter& painter, const PlotFrame& frame) const
{
    const PlotPanel panel(painter, theme(), frame);
    std::vector<AxisMark> hours;
    const int every = frame.yHigh - frame.yLow > 30 ? 3 : 2;
    for (int hour = 0; hour <= 24; hour += every)
        hours.push_back({ double(hour * YearState::rowsPerHour), Words::tr("%1:00").arg(hour) });
    painter.setRenderHint(QPainter::Antialiasing, false);
    for (int week = 1; week <= year_->weeks(); ++week)
        for (int row = int(frame.yLow); row < int(frame.yHigh); ++row) {
            const auto& cell = year_->cell(week, row);
            if (!cell || !cell->needed.minutes)
                continue;
            const QRectF box(frame.toPlace({ week - 0.5, double(row) }), frame.toPlace({ week + 0.5, row + 1.0 }));
            painter.fillRect(box.normalized(), onRamp(theme().ramp, shade(*cell->needed.minutes)));
        }
    painter.setRenderHint(QPainter::Antialiasing, true);
    panel.grid(hours, months());
    outline(painter, frame);
    // The hour that is chosen.
    const double y = frame.toPlace({ frame.xLow, hour_ + 0.5 }).y();
    if (y >= frame.area.top() && y <= frame.area.bottom()) {
        painter.setPen(QPen(theme().rust, 1.4, Qt::DashLine));
        painter.drawLine(QPointF(frame.area.left(), y), QPointF(frame.area.right(), y));
        paintLabel(painter, theme(), { frame.area.right(), y }, YearState::hourWords(hour_), frame.area, theme().rust);
    }
}

void YearSheet::outline(QPainter& painter, const PlotFrame& frame) const
{
    QList<QLineF> edges;
    for (int week = 0; week <= year_->weeks(); ++week)
        for (int row = int(frame.yLow); row < int(frame.yHigh); ++row) {
            const bool here = quick(week, row);
            if (here != quick(week + 1, row))
                edges << QLineF(frame.toPlace({ week + 0.5, double(row) }), frame.toPlace({ week + 0.5, row + 1.0 }));
            if (week >= 1 && here != quick(week, row - 1))
                edges << QLineF(frame.toPlace({ week - 0.5, double(row) }), frame.toPlace({ week + 0.5, double(row) }));
            if (week >= 1 && row + 1 == int(frame.yHigh) && here)
                edges << QLineF(frame.toPlace({ week - 0.5, row + 1.0 }), frame.toPlace({ week + 0.5, row + 1.0 }));
        }
    // On a halo, so that it stands out from light and deep cells alike.
    for (const auto& [colour, width] : { std::pair(theme().sheet, 4.0), std::pair(theme().ink, 1.6) }) {
        painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::SquareCap));
        painter.drawLines(edges);
    }
}

void YearSheet::paintHour(QPainter& painter, const PlotFrame& frame) const
{
    const PlotPanel panel(painter, theme(), frame);
    // The weeks that can, as a band of their own below the line: a word and a place, not the colour alone.
    std::vector<AxisMark> minutes;
    for (const double value : { 240.0, 120.0, 60.0, 30.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2 })
        if (std::log10(value) >= frame.yLow)
            minutes.insert(minutes.begin(), { std::log10(value), minutesMark(value) });
    for (const auto& run : year_->printable(hour_, within_)) {
        const QRectF band(
            frame.toPlace({ run.first - 0.5, frame.yHigh }), frame.toPlace({ run.last + 0.5, frame.yLow }));
        painter.fillRect(band.normalized(), veiled(theme().coated, theme().dark ? 45 : 80));
        const auto words = run.first == run.last ? Words::tr("week %1").arg(run.first)
                                                 : Words::tr("weeks %1 to %2").arg(run.first).arg(run.last);
        if (painter.fontMetrics().horizontalAdvance(words) + 6 < band.normalized().width()) {
            painter.setPen(theme().ink);
            painter.drawText(band.normalized().adjusted(0, 2, 0, 0), Qt::AlignHCenter | Qt::AlignTop, words);
        }
    }
    panel.grid(minutes, months());
    panel.underline(months());
    panel.caption(Words::tr("Minutes needed at %1, week by week; shaded: within %2")
                      .arg(YearState::hourWords(hour_), minutesWords(within_)));
    QList<QPointF> low, likely, high;
    for (int week = 1; week <= year_->weeks(); ++week) {
        const auto& cell = year_->cell(week, hour_);
        const auto log = [](const std::optional<double>& value, double none) {
            return value && *value > 0 ? std::log10(*value) : none;
        };
        const bool any = cell && cell->needed.low;
        low.append({ double(week), any ? std::max(frame.yLow, log(cell->needed.low, nothing)) : nothing });
        likely.append({ double(week), any ? log(cell->needed.minutes, nothing) : nothing });
        high.append({ double(week), any ? log(cell->needed.high, frame.yHigh) : nothing });
    }
    panel.band(low, high, veiled(theme().blue, 60));
    panel.line(likely, QPen(theme().blue, 2));
    const double y = frame.toPlace({ frame.xLow, std::log10(within_) }).y();
    painter.setPen(QPen(theme().rust, 1.4, Qt::DashLine));
    painter.drawLine(QPointF(frame.area.left(), y), QPointF(frame.area.right(), y));
    if (year_->printable(hour_, longestUseful_min).empty())
        paintLabel(painter, theme(), frame.area.center(), year_->printableSentence(hour_, longestUseful_min),
            frame.area, theme().ink);
}

void YearSheet::keyPressEvent(QKeyEvent* event)
{
    if (!year_) {
        PaintedSheet::keyPressEvent(event);
        return;
    }
    const auto move = [&](int weeks, int rows) {
        setCurrent(
            current_ ? Cell { current_->week + weeks, current_->row + rows } : Cell { year_->weeks() / 2, hour_ });
    };
    switch (event->key()) {
    case Qt::Key_Right:
        return move(1, 0);
    case Qt::Key_Left:
        return move(-1, 0);
    case Qt::Key_Up:
        return move(0, 1);
    case Qt::Key_Down:
        return move(0, -1);
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (current_)
            Q_EMIT hourPicked(current_->row);
        return;
    case Qt::Key_Escape:
        if (current_)
            return setCurrent({});
        break;
    default:
        break;
    }
    PaintedSheet::keyPressEvent(event);
}

void YearSheet::mouseMoveEvent(QMouseEvent* event)
{
    PaintedSheet::mouseMoveEvent(event);
    setCurrent(cellAt(event->position()));
}

void YearSheet::mousePressEvent(QMouseEvent* event)
{
    PaintedSheet::mousePressEvent(event);
    setFocus(Qt::MouseFocusReason);
    if (const auto cell = cellAt(event->position())) {
        setCurrent(cell);
        Q_EMIT hourPicked(cell->row);
    }
}

void YearSheet::leaveEvent(QEvent* event)
{
    PaintedSheet::leaveEvent(event);
    setCurrent({});
}

} // namespace washfast::ui::sunlight
