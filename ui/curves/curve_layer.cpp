#include "ui/curves/curve_layer.h"

#include "ui/curves/plot_heading.h"

#include <QChart>
#include <QPainter>
#include <algorithm>

namespace washfast::ui::curves {

namespace {

constexpr double aboveAll = 20; // of points and lines
constexpr double gap = 6;
constexpr double glyphSize = 9;
constexpr double signRoom = 12; // from the left end to the words
constexpr double wordGap = 18;
constexpr int mostLines = 3;
constexpr int bandAlpha = 46;
constexpr double cap = 3; // of an error bar, to each side

QPolygonF placed(const PlotFrame& plot, const std::vector<QPointF>& values)
{
    QPolygonF places;
    for (const auto& value : values)
        places << plot.toPlace(value);
    return places;
}

} // namespace

CurveLayer::CurveLayer(QChart* chart, const Theme& theme)
    : PlotItem(chart)
    , theme_(theme)
{
    setAcceptedMouseButtons(Qt::NoButton);
}

void CurveLayer::setPicture(CurvePicture picture)
{
    picture_ = std::move(picture);
    update();
}

void CurveLayer::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

QPolygonF CurveLayer::bandOutline() const
{
    return placed(frame(), picture_.band);
}

void CurveLayer::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget*)
{
    const auto plot = frame();
    if (!plot.isValid())
        return;
    painter->save();
    painter->setClipRect(plot.area.adjusted(-1, -1, 1, 1));
    painter->setRenderHint(QPainter::Antialiasing);
    auto band = theme_.blue;
    band.setAlpha(bandAlpha);
    painter->setPen(Qt::NoPen);
    painter->setBrush(band);
    painter->drawPolygon(placed(plot, picture_.band));
    painter->setBrush(Qt::NoBrush);
    paintMarks(*painter, plot);
    for (const auto& line : picture_.lines) {
        const size_t category = line.group < 0 ? 0 : size_t(line.group) % theme_.categories.size();
        painter->setPen(QPen(line.group < 0 ? theme_.blue : theme_.categories[category], line.group < 0 ? 2.2 : 1.4));
        painter->drawPolyline(placed(plot, line.points));
    }
    for (const auto& point : picture_.points) {
        if (!(point.bar > 0))
            continue;
        painter->setPen(QPen(theme_.edge, 1));
        const auto top = plot.toPlace({ point.at.x(), point.at.y() + point.bar });
        const auto foot = plot.toPlace({ point.at.x(), point.at.y() - point.bar });
        painter->drawLine(top, foot);
        for (const auto& end : { top, foot })
            painter->drawLine(end - QPointF(cap, 0), end + QPointF(cap, 0));
    }
    paintWanted(*painter, plot);
    painter->restore();
}

void CurveLayer::paintMarks(QPainter& painter, const PlotFrame& plot) const
{
    painter.setFont(textFont(chart()->font(), TextSize::Small));
    const double line = painter.fontMetrics().height();
    double taken = plot.area.left(); // of the line of words at the top
    for (const auto& mark : picture_.across) {
        if (mark.wanted)
            continue;
        const double x = plot.toPlace({ mark.at, 0 }).x();
        painter.setPen(QPen(theme_.edge, 1, Qt::DashLine));
        painter.drawLine(QPointF(x, plot.area.top()), QPointF(x, plot.area.bottom()));
        const double width = painter.fontMetrics().horizontalAdvance(mark.words);
        // To the right of its line; to the left where the plot ends.
        double left = x + 4;
        if (left + width > plot.area.right())
            left = x - 4 - width;
        left = std::max(left, taken);
        taken = left + width + gap;
        painter.setPen(theme_.quiet);
        painter.drawText(QRectF(left, plot.area.top() + 2, width + 2, line), Qt::AlignLeft, mark.words);
    }
    for (const auto& mark : picture_.up) {
        if (mark.wanted)
            continue;
        const double y = plot.toPlace({ 0, mark.at }).y();
        painter.setPen(QPen(theme_.edge, 1, Qt::DashLine));
        painter.drawLine(QPointF(plot.area.left(), y), QPointF(plot.area.right(), y));
        painter.setPen(theme_.quiet);
        painter.drawText(
            QRectF(plot.area.left(), y - line - 1, plot.area.width() - 4, line), Qt::AlignRight, mark.words);
    }
}

void CurveLayer::paintWanted(QPainter& painter, const PlotFrame& plot) const
{
    const auto across = std::find_if(
        picture_.across.begin(), picture_.across.end(), [](const PictureMark& mark) { return mark.wanted; });
    const auto up
        = std::find_if(picture_.up.begin(), picture_.up.end(), [](const PictureMark& mark) { return mark.wanted; });
    if (across == picture_.across.end() || up == picture_.up.end())
        return;
    const auto place = plot.toPlace({ across->at, up->at });
    painter.setPen(QPen(theme_.rust, 1.4));
    painter.drawPolyline(QPolygonF { { plot.area.left(), place.y() }, place, { place.x(), plot.area.bottom() } });
    if (picture_.wanted_ends != QPointF()) {
        const double left = plot.toPlace({ picture_.wanted_ends.x(), 0 }).x();
        const double right = plot.toPlace({ picture_.wanted_ends.y(), 0 }).x();
        painter.setPen(QPen(theme_.rust, 4, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(QPointF(left, plot.area.bottom() - 2), QPointF(right, plot.area.bottom() - 2));
    }
    painter.setFont(textFont(chart()->font(), TextSize::Small));
    const double line = painter.fontMetrics().height();
    const double width = painter.fontMetrics().horizontalAdvance(across->words) + 4;
    double left = place.x() + 6;
    if (left + width > plot.area.right())
        left = place.x() - 6 - width;
    // On a ground of its own: points and the base line may lie there.
    const QRectF box(left, plot.area.bottom() - line - 8, width, line);
    painter.fillRect(box, theme_.sheet);
    painter.setPen(theme_.ink);
    painter.drawText(box, Qt::AlignCenter, across->words);
}

CurveHeading::CurveHeading(QChart* chart)
    : QGraphicsObject(chart)
    , chart_(chart)
{
    setZValue(aboveAll);
    connect(chart, &QChart::plotAreaChanged, this, [this] {
        prepareGeometryChange();
        update();
    });
}

void CurveHeading::set(const QString& title, std::vector<Entry> entries, const Theme& theme)
{
    prepareGeometryChange();
    title_ = title;
    entries_ = std::move(entries);
    theme_ = theme;
    update();
}

QFont CurveHeading::small() const
{
    return textFont(chart_->font(), TextSize::Small);
}

CurveHeading::Laid CurveHeading::lay(double width) const
{
    Laid laid;
    const QFontMetricsF metrics(small());
    double x = 0;
    int line = 0;
    for (const auto& entry : entries_) {
        const double needed = signRoom + metrics.horizontalAdvance(entry.words);
        if (x > 0 && x + needed > width) {
            x = 0;
            ++line;
        }
        if (line >= mostLines) {
            laid.beyond = int(entries_.size() - laid.at.size());
            break;
        }
        laid.at.emplace_back(x, line);
        x += needed + wordGap;
    }
    laid.lines = entries_.empty() ? 0 : std::min(line + 1, mostLines);
    return laid;
}

double CurveHeading::heightFor(double width) const
{
    return QFontMetricsF(chart_->font()).height() + gap + lay(width).lines * QFontMetricsF(small()).height();
}

QRectF CurveHeading::boundingRect() const
{
    const auto plot = chart_->plotArea();
    const double height = heightFor(plot.width());
    return { plot.left(), plot.top() - height - gap, plot.width(), height };
}

void CurveHeading::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget*)
{
    const auto area = boundingRect();
    paintPlotTitle(*painter, area, chart_->font(), title_, theme_);
    const double title = QFontMetricsF(chart_->font()).height();
    painter->setFont(small());
    const double line = painter->fontMetrics().height();
    const auto laid = lay(area.width());
    for (size_t i = 0; i < laid.at.size(); ++i) {
        const double y = area.top() + title + gap / 2 + laid.at[i].y() * line;
        const double x = area.left() + laid.at[i].x();
        paintGlyph(*painter, { x + glyphSize / 2, y + line / 2 }, glyphSize, entries_[i].shape, entries_[i].colour);
        painter->setPen(theme_.quiet);
        painter->drawText(QRectF(x + signRoom, y, area.right() - x - signRoom, line), Qt::AlignLeft | Qt::AlignVCenter,
            entries_[i].words);
    }
    if (laid.beyond > 0)
        painter->drawText(
            QRectF(area.left(), area.top() + title + gap / 2 + (mostLines - 1) * line, area.width(), line),
            Qt::AlignRight | Qt::AlignVCenter, tr("and %n more", nullptr, laid.beyond));
}

} // namespace washfast::ui::curves
