#include "ui/common/point_glyph.h"

#include <QPainter>
#include <QPolygonF>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace washfast::ui {

PointShape groupShape(int group)
{
    constexpr std::array order { PointShape::Circle, PointShape::Square, PointShape::Triangle, PointShape::Diamond };
    const int count = static_cast<int>(order.size());
    return order[static_cast<std::size_t>(((group % count) + count) % count)];
}

double glyphReach(double size)
{
    return size * 0.8 + 1.5;
}

void paintGlyph(
    QPainter& painter, const QPointF& centre, double size, PointShape shape, const QColor& fill, const QColor& outline)
{
    // Sides and half-diagonals that give each shape the area of a circle of this diameter.
    const double area = std::numbers::pi * size * size / 4;
    const double square = std::sqrt(area);
    const double triangle = std::sqrt(4 * area / std::sqrt(3.0));
    const double diamond = std::sqrt(area / 2);

    if (shape == PointShape::Cross) {
        const double arm = size * 0.47;
        const auto stroke = [&](const QColor& colour, double width) {
            painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::RoundCap));
            painter.drawLine(centre - QPointF(arm, arm), centre + QPointF(arm, arm));
            painter.drawLine(centre - QPointF(arm, -arm), centre + QPointF(arm, -arm));
        };
        const double width = std::max(1.5, size * 0.24);
        if (outline.isValid())
            stroke(outline, width + 1.6);
        stroke(fill, width);
        return;
    }
    painter.setBrush(fill);
    painter.setPen(outline.isValid() ? QPen(outline, 0.8, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin) : Qt::NoPen);
    switch (shape) {
    case PointShape::Circle:
        painter.drawEllipse(centre, size / 2, size / 2);
        break;
    case PointShape::Square:
        painter.drawRect(QRectF(centre.x() - square / 2, centre.y() - square / 2, square, square));
        break;
    case PointShape::Triangle: {
        const double height = triangle * std::sqrt(3.0) / 2;
        painter.drawPolygon(QPolygonF({ centre + QPointF(0, -height * 2 / 3),
            centre + QPointF(triangle / 2, height / 3), centre + QPointF(-triangle / 2, height / 3) }));
        break;
    }
    case PointShape::Diamond:
        painter.drawPolygon(QPolygonF({ centre + QPointF(0, -diamond * 1.12), centre + QPointF(diamond * 0.9, 0),
            centre + QPointF(0, diamond * 1.12), centre + QPointF(-diamond * 0.9, 0) }));
        break;
    case PointShape::Cross:
        break;
    }
}

} // namespace washfast::ui
