#include "ui/sheets/pictogram_paint.h"

#include <QPainter>
#include <QPainterPath>

namespace washfast::ui::sheets {

namespace {

constexpr double symbol = 0.86, widerSymbol = 0.76; // of the diamond

// Drawings stand in a square from -1 to 1, of which the diamond |x| + |y| <= 1 is seen.

QPen stroke(double width)
{
    return { Qt::black, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin };
}

void exclamation(QPainter& p)
{
    QPainterPath bar(QPointF(-0.10, -0.52));
    bar.cubicTo(-0.10, -0.62, 0.10, -0.62, 0.10, -0.52);
    bar.lineTo(0.055, 0.16);
    bar.cubicTo(0.05, 0.22, -0.05, 0.22, -0.055, 0.16);
    bar.closeSubpath();
    p.drawPath(bar);
    p.drawEllipse(QPointF(0, 0.42), 0.105, 0.105);
}

void flame(QPainter& p, double bottom)
{
    QPainterPath path(QPointF(0.02, -0.62));
    path.cubicTo(0.10, -0.42, 0.30, -0.36, 0.26, -0.08);
    path.cubicTo(0.34, -0.14, 0.34, -0.22, 0.33, -0.30);
    path.cubicTo(0.46, -0.06, 0.38, bottom, 0.0, bottom);
    path.cubicTo(-0.38, bottom, -0.44, -0.04, -0.24, -0.28);
    path.cubicTo(-0.24, -0.16, -0.20, -0.10, -0.14, -0.08);
    path.cubicTo(-0.20, -0.30, 0.00, -0.40, 0.02, -0.62);
    p.drawPath(path);
    p.setBrush(Qt::white);
    QPainterPath core(QPointF(0.02, -0.14));
    core.cubicTo(0.12, 0.00, 0.14, bottom - 0.06, 0.0, bottom - 0.06);
    core.cubicTo(-0.16, bottom - 0.06, -0.12, 0.02, 0.02, -0.14);
    p.drawPath(core);
    p.setBrush(Qt::black);
}

void flameOverCircle(QPainter& p)
{
    flame(p, 0.16);
    p.setBrush(Qt::NoBrush);
    p.setPen(stroke(0.09));
    p.drawEllipse(QPointF(0, 0.40), 0.19, 0.19);
    p.drawLine(QPointF(-0.28, 0.66), QPointF(0.28, 0.66));
}

/// A vessel that tips, and what drips from it onto something below.
void tippingTube(QPainter& p, double x, double turn)
{
    p.save();
    p.translate(x, -0.34);
    p.rotate(turn);
    QPainterPath tube;
    tube.addRoundedRect(QRectF(-0.30, -0.075, 0.52, 0.15), 0.075, 0.075);
    p.setBrush(Qt::white);
    p.setPen(stroke(0.045));
    p.drawPath(tube);
    p.setPen(Qt::NoPen);
    p.setBrush(Qt::black);
    p.drawRoundedRect(QRectF(-0.06, -0.02, 0.27, 0.08), 0.04, 0.04);
    p.restore();
}

void corrosion(QPainter& p)
{
    tippingTube(p, -0.28, 24);
    tippingTube(p, 0.30, 24);
    for (const double x : { -0.10, 0.48 })
        for (const double y : { -0.10, 0.04 })
            p.drawEllipse(QPointF(x - 0.05, y), 0.028, 0.05);
    QPainterPath bar(QPointF(-0.66, 0.17)); // a bar of metal, eaten in the middle
    bar.lineTo(-0.24, 0.17);
    bar.cubicTo(-0.20, 0.24, -0.16, 0.21, -0.13, 0.27);
    bar.cubicTo(-0.10, 0.22, -0.06, 0.24, -0.03, 0.17);
    bar.lineTo(0.02, 0.17);
    bar.lineTo(0.02, 0.34);
    bar.lineTo(-0.66, 0.34);
    bar.closeSubpath();
    p.drawPath(bar);
    QPainterPath hand(QPointF(0.66, 0.20)); // a hand, palm down, bitten at the knuckle
    hand.lineTo(0.50, 0.20);
    hand.cubicTo(0.47, 0.27, 0.44, 0.24, 0.41, 0.29);
    hand.cubicTo(0.38, 0.24, 0.34, 0.26, 0.31, 0.20);
    hand.cubicTo(0.22, 0.18, 0.16, 0.24, 0.08, 0.32);
    hand.cubicTo(0.04, 0.38, 0.10, 0.42, 0.16, 0.38);
    hand.lineTo(0.28, 0.34);
    hand.lineTo(0.20, 0.46);
    hand.cubicTo(0.22, 0.52, 0.30, 0.52, 0.34, 0.48);
    hand.lineTo(0.48, 0.38);
    hand.lineTo(0.66, 0.38);
    hand.closeSubpath();
    p.drawPath(hand);
}

void skull(QPainter& p)
{
    p.setPen(stroke(0.13));
    p.drawLine(QPointF(-0.44, 0.14), QPointF(0.44, 0.48));
    p.drawLine(QPointF(0.44, 0.14), QPointF(-0.44, 0.48));
    p.setPen(Qt::NoPen);
    for (const double x : { -0.44, 0.44 })
        for (const double y : { 0.14, 0.48 })
            for (const double off : { -0.06, 0.06 })
                p.drawEllipse(QPointF(x, y + off), 0.085, 0.085);
    const QRectF jaw(-0.17, -0.06, 0.34, 0.30);
    for (const double rim : { 0.05, 0.0 }) { // a white rim parts it from the bones
        p.setBrush(rim > 0 ? Qt::white : Qt::black);
        p.drawEllipse(QPointF(0, -0.24), 0.31 + rim, 0.30 + rim);
        p.drawRoundedRect(jaw.adjusted(-rim, -rim, rim, rim), 0.07, 0.07);
    }
    p.setBrush(Qt::white);
    for (const double x : { -0.13, 0.13 })
        p.drawEllipse(QPointF(x, -0.20), 0.085, 0.095);
    QPainterPath nose(QPointF(0, -0.10));
    nose.lineTo(0.05, 0.00);
    nose.lineTo(-0.05, 0.00);
    nose.closeSubpath();
    p.drawPath(nose);
    for (const double x : { -0.085, 0.0, 0.085 })
        p.drawRect(QRectF(x - 0.012, 0.08, 0.024, 0.12));
    p.setBrush(Qt::black);
}

void healthHazard(QPainter& p)
{
    p.drawEllipse(QPointF(0, -0.48), 0.15, 0.17); // head and shoulders
    QPainterPath body(QPointF(-0.09, -0.34));
    body.lineTo(0.09, -0.34);
    body.lineTo(0.10, -0.24);
    body.cubicTo(0.30, -0.20, 0.38, -0.10, 0.38, 0.12);
    body.lineTo(0.36, 0.52);
    body.lineTo(-0.36, 0.52);
    body.lineTo(-0.38, 0.12);
    body.cubicTo(-0.38, -0.10, -0.30, -0.20, -0.10, -0.24);
    body.closeSubpath();
    p.drawPath(body);
    p.setBrush(Qt::white); // a burst in the chest
    p.save();
    p.translate(0, 0.13);
    for (int i = 0; i < 6; ++i) {
        QPainterPath ray(QPointF(-0.055, 0));
        ray.lineTo(0, -0.28);
        ray.lineTo(0.055, 0);
        ray.lineTo(0, 0.06);
        ray.closeSubpath();
        p.drawPath(ray);
        p.rotate(60);
    }
    p.restore();
    p.setBrush(Qt::black);
}

void environment(QPainter& p)
{
    p.setPen(stroke(0.06)); // a bare tree
    p.setBrush(Qt::NoBrush);
    QPainterPath tree(QPointF(0.16, 0.28));
    tree.cubicTo(0.20, 0.04, 0.18, -0.20, 0.14, -0.56);
    tree.moveTo(0.18, -0.06);
    tree.lineTo(0.36, -0.30);
    tree.moveTo(0.17, -0.20);
    tree.lineTo(-0.04, -0.40);
    tree.moveTo(0.28, -0.20);
    tree.lineTo(0.42, -0.22);
    tree.moveTo(0.06, -0.31);
    tree.lineTo(0.04, -0.48);
    p.drawPath(tree);
    p.drawLine(QPointF(-0.66, 0.28), QPointF(0.62, 0.28));
    p.setPen(Qt::NoPen);
    p.setBrush(Qt::black);
    QPainterPath fish(QPointF(-0.40, 0.44)); // a fish on its back, under the line
    fish.cubicTo(-0.24, 0.30, 0.02, 0.32, 0.16, 0.44);
    fish.lineTo(0.34, 0.34);
    fish.lineTo(0.30, 0.46);
    fish.lineTo(0.36, 0.58);
    fish.lineTo(0.16, 0.48);
    fish.cubicTo(0.00, 0.62, -0.24, 0.58, -0.40, 0.44);
    p.drawPath(fish);
    p.setPen(QPen(Qt::white, 0.03));
    p.drawLine(QPointF(-0.29, 0.42), QPointF(-0.24, 0.47));
    p.drawLine(QPointF(-0.24, 0.42), QPointF(-0.29, 0.47));
}

} // namespace

void paintPictogram(QPainter& painter, const QRectF& box, const QString& code)
{
    const double side = qMin(box.width(), box.height());
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.center());
    painter.scale(side / 2, side / 2);
    constexpr double edge = 0.10;
    const double reach = 1 - edge * 0.71;
    const QPolygonF diamond({ { 0, -reach }, { reach, 0 }, { 0, reach }, { -reach, 0 } });
    painter.setPen(QPen(QColor(0xE2, 0x00, 0x1A), edge, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.setBrush(Qt::white);
    painter.drawPolygon(diamond);
    painter.setPen(Qt::NoPen);
    painter.setBrush(Qt::black);
    const bool wide = code == QLatin1String("GHS05") || code == QLatin1String("GHS09");
    painter.scale(wide ? widerSymbol : symbol, wide ? widerSymbol : symbol); // clear of the edge
    if (code == QLatin1String("GHS03"))
        flameOverCircle(painter);
    else if (code == QLatin1String("GHS05"))
        corrosion(painter);
    else if (code == QLatin1String("GHS06"))
        skull(painter);
    else if (code == QLatin1String("GHS07"))
        exclamation(painter);
    else if (code == QLatin1String("GHS08"))
        healthHazard(painter);
    else if (code == QLatin1String("GHS09"))
        environment(painter);
    painter.restore();
}

} // namespace washfast::ui::sheets
