#include "ui/common/outline_style.h"

#include <QPainter>
#include <QStyleOption>

namespace washfast::ui {

namespace {

void outline(const QStyleOption& option, QPainter& painter, double radius)
{
    // A control that is off may stay faint; one with the focus always shows it, however it came to it.
    if (!(option.state & QStyle::State_Enabled))
        return;
    const bool focus = option.state & QStyle::State_HasFocus;
    const double width = focus ? 1.5 : 1.0;
    const double inset = width / 2;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(option.palette.color(focus ? QPalette::Highlight : QPalette::Dark), width));
    painter.drawRoundedRect(QRectF(option.rect).adjusted(inset, inset, -inset, -inset), radius, radius);
    painter.restore();
}

} // namespace

OutlineStyle::OutlineStyle()
    : QProxyStyle(QStringLiteral("Fusion"))
{
}

void OutlineStyle::drawPrimitive(
    PrimitiveElement element, const QStyleOption* option, QPainter* painter, const QWidget* widget) const
{
    QProxyStyle::drawPrimitive(element, option, painter, widget);
    switch (element) {
    case PE_FrameLineEdit:
    case PE_PanelButtonCommand:
        outline(*option, *painter, 2);
        break;
    case PE_IndicatorCheckBox:
    case PE_IndicatorItemViewItemCheck:
        outline(*option, *painter, 1);
        break;
    case PE_IndicatorRadioButton:
        outline(*option, *painter, option->rect.width() / 2.0);
        break;
    default:
        break;
    }
}

void OutlineStyle::drawComplexControl(
    ComplexControl control, const QStyleOptionComplex* option, QPainter* painter, const QWidget* widget) const
{
    QProxyStyle::drawComplexControl(control, option, painter, widget);
    if (control == CC_ComboBox || control == CC_SpinBox)
        outline(*option, *painter, 2);
}

} // namespace washfast::ui
