#include "ui/curves/plot_heading.h"

#include "ui/common/heat_layer.h"
#include "ui/common/point_glyph.h"

#include <QChart>
#include <QPainter>

namespace washfast::ui {

namespace {

constexpr double above = 20; // of the points and the map
constexpr double gap = 6;
constexpr double rampWidth = 220;
constexpr double glyphSize = 9;
constexpr double signRoom = 14; // from the middle of a sign to its word
constexpr double wordGap = 26;
constexpr size_t unknownCategory = 3; // mauve: no shade of the ramp comes near it

} // namespace

void paintPlotTitle(QPainter& painter, const QRectF& room, QFont font, const QString& title, const Theme& theme)
{
    painter.setRenderHint(QPainter::Antialiasing);
    font.setBold(true);
    painter.setFont(font);
    painter.setPen(theme.ink);
    painter.drawText(QRectF(room.left(), room.top(), room.width(), painter.fontMetrics().height()),
        Qt::AlignLeft | Qt::AlignTop, painter.fontMetrics().elidedText(title, Qt::ElideRight, int(room.width())));
}

PlotHeading::PlotHeading(QChart* chart)
    : QGraphicsObject(chart)
    , chart_(chart)
{
    setZValue(above);
    connect(chart, &QChart::plotAreaChanged, this, [this] {
        prepareGeometryChange();
        update();
    });
}

void PlotHeading::set(PlotLegend legend, const Theme& theme)
{
    legend_ = std::move(legend);
    theme_ = theme;
    update();
}

QColor PlotHeading::unknownColour(const Theme& theme)
{
    return theme.categories[unknownCategory];
}

QRectF PlotHeading::boundingRect() const
{
    const auto plot = chart_->plotArea();
    return { plot.left(), plot.top() - height - gap, plot.width(), height };
}

void PlotHeading::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget*)
{
    const auto area = boundingRect();
    const auto room = area.width() - (legend_.low.isEmpty() ? 0 : rampWidth + wordGap);
    paintPlotTitle(*painter, { area.left(), area.top(), room, height }, chart_->font(), legend_.title, theme_);
    painter->setFont(textFont(chart_->font(), TextSize::Small));
    paintSigns(*painter,
        QRectF(
            area.left(), area.bottom() - painter->fontMetrics().height() - gap, room, painter->fontMetrics().height()));
    if (!legend_.low.isEmpty())
        paintRampLegend(*painter, QRectF(area.right() - rampWidth, area.top(), rampWidth, height), legend_.stops,
            legend_.colour_label, legend_.low, legend_.high, theme_);
}

void PlotHeading::paintSigns(QPainter& painter, const QRectF& area) const
{
    struct Sign {
        PointShape shape;
        QColor colour;
        QString words;
    };
    std::vector<Sign> signs { { PointShape::Circle, theme_.ink, tr("not failed") },
        { PointShape::Cross, theme_.ink, tr("failed") }, { PointShape::Diamond, theme_.ink, tr("outcome not noted") } };
    if (!legend_.unknown.isEmpty())
        signs.push_back({ PointShape::Circle, unknownColour(theme_), legend_.unknown });
    double x = area.left() + glyphSize / 2 + 1;
    for (const auto& [shape, colour, words] : signs) {
        const double width = painter.fontMetrics().horizontalAdvance(words);
        if (x + signRoom + width > area.right())
            return;
        paintGlyph(painter, { x, area.center().y() }, glyphSize, shape, colour);
        painter.setPen(theme_.quiet);
        painter.drawText(QRectF(x + signRoom - glyphSize / 2, area.top(), width + 2, area.height()),
            Qt::AlignLeft | Qt::AlignVCenter, words);
        x += width + signRoom + wordGap - glyphSize;
    }
}

} // namespace washfast::ui
