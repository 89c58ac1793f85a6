// Fusion draws the outline of its fields and boxes as a darker window colour, which vanishes on a dark window. This
// style leaves every control as it is and draws that one outline again in the palette's Dark, which theme.h sets to a
// colour that can be seen (3 : 1).
#pragma once

#include <QProxyStyle>

namespace washfast::ui {

class OutlineStyle : public QProxyStyle {
    Q_OBJECT

public:
    OutlineStyle();

    void drawPrimitive(
        PrimitiveElement element, const QStyleOption* option, QPainter* painter, const QWidget* widget) const override;
    void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
        const QWidget* widget) const override;
};

} // namespace washfast::ui
