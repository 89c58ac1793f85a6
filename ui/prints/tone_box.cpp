#include "ui/prints/tone_box.h"

#include <QPainter>

namespace washfast::ui {

ToneBox::ToneBox(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setFixedSize(160, 72);
}

void ToneBox::setTones(const PrintTones& tones)
{
    tones_ = tones;
    const auto words = tonePairText(tones.before, tones.after);
    setToolTip(words);
    setAccessibleName(words);
    update();
}

void ToneBox::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

void ToneBox::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    paintTonePair(painter, QRectF(rect()).adjusted(1, 1, -1, -1), tones_.before, tones_.after, theme_);
}

} // namespace washfast::ui
