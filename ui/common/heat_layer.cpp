#include "ui/common/heat_layer.h"

#include "ui/common/tone_pair.h"

#include <QFontMetricsF>
#include <QGraphicsSceneHoverEvent>
#include <QGraphicsSceneMouseEvent>
#include <QGraphicsView>
#include <QKeyEvent>
#include <QLinearGradient>
#include <QLocale>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr int meanDigits = 2;

std::optional<int> binOf(const std::vector<double>& edges, double value)
{
    if (edges.size() < 2 || !(value >= edges.front() && value <= edges.back()))
        return std::nullopt;
    const auto above = std::upper_bound(edges.begin(), edges.end(), value);
    const auto bin = static_cast<int>(above - edges.begin()) - 1;
    return std::min(bin, static_cast<int>(edges.size()) - 2);
}

} // namespace

MeanMap meanMap(const std::vector<QPointF>& positions, const std::vector<double>& values, std::vector<double> xEdges,
    std::vector<double> yEdges)
{
    MeanMap map;
    map.xEdges = std::move(xEdges);
    map.yEdges = std::move(yEdges);
    const auto cells = static_cast<std::size_t>(map.columns()) * static_cast<std::size_t>(map.rows());
    std::vector<double> sums(cells, 0.0);
    map.means.resize(cells);
    map.counts.assign(cells, 0);
    for (std::size_t i = 0; i < std::min(positions.size(), values.size()); ++i) {
        const auto column = binOf(map.xEdges, positions[i].x());
        const auto row = binOf(map.yEdges, positions[i].y());
        if (!column || !row || !std::isfinite(values[i]))
            continue;
        const auto cell = map.index(*column, *row);
        sums[cell] += values[i];
        ++map.counts[cell];
    }
    for (std::size_t cell = 0; cell < cells; ++cell)
        if (map.counts[cell] > 0)
            map.means[cell] = sums[cell] / map.counts[cell];
    return map;
}

HeatLayer::HeatLayer(QChart* chart, const Theme& theme)
    : PlotItem(chart)
    , theme_(theme)
{
    setAcceptHoverEvents(true);
    setAcceptedMouseButtons(Qt::LeftButton);
}

void HeatLayer::setMap(MeanMap map)
{
    map_ = std::move(map);
    current_ = -1;
    bool first = true;
    for (const auto& mean : map_.means) {
        if (!mean)
            continue;
        low_ = first ? *mean : std::min(low_, *mean);
        high_ = first ? *mean : std::max(high_, *mean);
        first = false;
    }
    update();
}

void HeatLayer::setRange(double low, double high)
{
    low_ = low;
    high_ = high;
    update();
}

void HeatLayer::setEnough(int prints)
{
    enough_ = prints;
    update();
}

void HeatLayer::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

QColor HeatLayer::colourFor(double mean) const
{
    return onRamp(theme_.ramp, high_ > low_ ? (mean - low_) / (high_ - low_) : 0.5);
}

std::optional<std::size_t> HeatLayer::cellAt(const QPointF& place) const
{
    const PlotFrame plot = frame();
    if (!plot.isValid() || !plot.area.contains(place))
        return std::nullopt;
    const QPointF value = plot.toValue(place);
    const auto column = binOf(map_.xEdges, value.x());
    const auto row = binOf(map_.yEdges, value.y());
    if (!column || !row)
        return std::nullopt;
    return map_.index(*column, *row);
}

void HeatLayer::paintCell(QPainter& painter, const QRectF& cell, double mean, int count) const
{
    const QColor fill = colourFor(mean);
    const QColor text = textOn(fill, theme_);
    painter.setPen(Qt::NoPen);
    painter.setBrush(fill);
    painter.drawRect(cell);
    if (count < enough_) {
        QColor hatch = text;
        hatch.setAlpha(110);
        paintHatch(painter, cell, hatch, 6);
    }
    // In the corner, where the signs of single prints seldom lie; the mean only where there is room for both.
    const QFontMetricsF metrics(painter.font());
    const QString number = QLocale().toString(count);
    for (const QString& words : { tr("%1, n %2").arg(QLocale().toString(mean, 'g', meanDigits), number), number }) {
        const QRectF box(
            cell.topLeft() + QPointF(2, 2), QSizeF(metrics.horizontalAdvance(words) + 6, metrics.height()));
        if (box.right() + 2 > cell.right() || box.bottom() > cell.bottom())
            continue;
        painter.setPen(Qt::NoPen);
        if (count < enough_)
            painter.drawRect(box);
        painter.setPen(text);
        painter.drawText(box, Qt::AlignCenter, words);
        return;
    }
}

QRectF HeatLayer::cellRect(const PlotFrame& plot, int column, int row) const
{
    const auto x = static_cast<std::size_t>(column);
    const auto y = static_cast<std::size_t>(row);
    const QRectF whole(
        plot.toPlace({ map_.xEdges[x], map_.yEdges[y] }), plot.toPlace({ map_.xEdges[x + 1], map_.yEdges[y + 1] }));
    // Cut by hand: vector files lose clipping. A gap of one pixel keeps cells apart.
    return whole.normalized().intersected(plot.area).adjusted(0.5, 0.5, -0.5, -0.5);
}

void HeatLayer::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget* widget)
{
    const PlotFrame plot = frame();
    if (!plot.isValid())
        return;
    painter->save();
    painter->setFont(textFont(painter->font(), TextSize::Small));
    for (int row = 0; row < map_.rows(); ++row) {
        for (int column = 0; column < map_.columns(); ++column) {
            const auto index = map_.index(column, row);
            if (!map_.means[index])
                continue;
            const QRectF cell = cellRect(plot, column, row);
            if (cell.width() <= 0 || cell.height() <= 0)
                continue;
            painter->setRenderHint(QPainter::Antialiasing, false);
            paintCell(*painter, cell, *map_.means[index], map_.counts[index]);
            if (widget && static_cast<int>(index) == current_) {
                painter->setBrush(Qt::NoBrush);
                painter->setPen(QPen(textOn(colourFor(*map_.means[index]), theme_), 2));
                painter->drawRect(cell.adjusted(2, 2, -2, -2));
            }
        }
    }
    painter->restore();
}

void HeatLayer::setCurrent(int cell)
{
    if (cell < 0 || cell >= static_cast<int>(map_.counts.size()))
        cell = -1;
    if (cell == current_)
        return;
    current_ = cell;
    update();
    const PlotFrame plot = frame();
    const bool shown = cell >= 0 && plot.isValid();
    Q_EMIT hovered(cell, shown ? cellRect(plot, cell % map_.columns(), cell / map_.columns()).center() : QPointF());
}

void HeatLayer::step(int columns, int rows)
{
    if (current_ < 0) {
        const auto first = std::find_if(map_.counts.begin(), map_.counts.end(), [](int count) { return count > 0; });
        if (first != map_.counts.end())
            setCurrent(static_cast<int>(first - map_.counts.begin()));
        return;
    }
    int column = current_ % map_.columns();
    int row = current_ / map_.columns();
    while (columns != 0 || rows != 0) {
        column += columns;
        row += rows;
        if (column < 0 || column >= map_.columns() || row < 0 || row >= map_.rows())
            return;
        if (map_.counts[map_.index(column, row)] > 0) {
            setCurrent(static_cast<int>(map_.index(column, row)));
            return;
        }
    }
}

void HeatLayer::attachKeys(QGraphicsView* view)
{
    view->installEventFilter(this);
    view->setFocusPolicy(Qt::StrongFocus);
}

bool HeatLayer::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() != QEvent::KeyPress)
        return PlotItem::eventFilter(watched, event);
    switch (static_cast<QKeyEvent*>(event)->key()) {
    case Qt::Key_Right:
        step(1, 0);
        return true;
    case Qt::Key_Left:
        step(-1, 0);
        return true;
    case Qt::Key_Up:
        step(0, 1);
        return true;
    case Qt::Key_Down:
        step(0, -1);
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (current_ < 0)
            return false;
        Q_EMIT clicked(current_);
        return true;
    case Qt::Key_Escape:
        if (current_ < 0)
            return false;
        setCurrent(-1);
        return true;
    default:
        return false;
    }
}

void HeatLayer::hoverMoveEvent(QGraphicsSceneHoverEvent* event)
{
    const auto cell = cellAt(event->pos());
    setCurrent(cell ? static_cast<int>(*cell) : -1);
}

void HeatLayer::hoverLeaveEvent(QGraphicsSceneHoverEvent*)
{
    setCurrent(-1);
}

void HeatLayer::mousePressEvent(QGraphicsSceneMouseEvent* event)
{
    const auto cell = cellAt(event->pos());
    if (!cell || map_.counts[*cell] == 0) {
        event->ignore();
        return;
    }
    event->accept();
    Q_EMIT clicked(static_cast<int>(*cell));
}

void paintRampLegend(QPainter& painter, const QRectF& area, const std::array<QColor, 6>& stops, const QString& label,
    const QString& low, const QString& high, const Theme& theme)
{
    painter.save();
    painter.setFont(textFont(painter.font(), TextSize::Small));
    const double line = QFontMetricsF(painter.font()).height();
    const QRectF strip(area.left() + 0.5, area.top() + line + 2.5, area.width() - 1,
        std::max(6.0, std::min(14.0, area.height() - 2 * line - 6)));
    QLinearGradient gradient(strip.topLeft(), strip.topRight());
    for (std::size_t i = 0; i < stops.size(); ++i)
        gradient.setColorAt(static_cast<double>(i) / static_cast<double>(stops.size() - 1), stops[i]);
    painter.setBrush(gradient);
    painter.setPen(QPen(theme.edge, 1));
    painter.drawRect(strip);
    painter.setPen(theme.ink);
    painter.drawText(QRectF(area.left(), area.top(), area.width(), line), Qt::AlignHCenter | Qt::AlignTop, label);
    painter.setPen(theme.quiet);
    const QRectF ends(area.left(), strip.bottom() + 2, area.width(), line);
    painter.drawText(ends, Qt::AlignLeft | Qt::AlignTop, low);
    painter.drawText(ends, Qt::AlignRight | Qt::AlignTop, high);
    painter.restore();
}

} // namespace washfast::ui
