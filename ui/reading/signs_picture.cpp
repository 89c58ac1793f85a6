#include "ui/reading/signs_picture.h"

#include <QPainter>

namespace washfast::ui {

PictureBox::PictureBox(const Theme& theme, const QString& name, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setMinimumSize(200, 160);
    setAccessibleName(name);
}

void PictureBox::setPicture(const QImage& picture, const QString& words)
{
    picture_ = picture;
    words_ = words;
    mark_.reset();
    setAccessibleDescription(words);
    update();
}

void PictureBox::setMark(std::optional<QPointF> mark)
{
    mark_ = mark;
    update();
}

void PictureBox::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

void PictureBox::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setFont(textFont(font(), TextSize::Small));
    const int flags = Qt::TextWordWrap | Qt::AlignHCenter;
    const int foot = words_.isEmpty() || picture_.isNull()
        ? 0
        : painter.fontMetrics().boundingRect(QRect(0, 0, width(), 1000), flags, words_).height() + 6;
    painter.setPen(theme_.quiet);
    if (picture_.isNull()) {
        painter.drawText(rect().adjusted(8, 8, -8, -8), flags | Qt::AlignVCenter, words_);
        return;
    }
    const QRectF room(0, 0, width(), height() - foot);
    const auto size = QSizeF(picture_.size()).scaled(room.size(), Qt::KeepAspectRatio);
    const QRectF place(QPointF((room.width() - size.width()) / 2, (room.height() - size.height()) / 2), size);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(place, picture_);
    painter.setPen(theme_.edge);
    painter.drawRect(place.adjusted(0.5, 0.5, -0.5, -0.5));
    if (mark_) {
        const QPointF at(place.left() + mark_->x() * place.width(), place.top() + mark_->y() * place.height());
        for (const auto& [colour, wide] : { std::pair(Qt::white, 4), std::pair(Qt::black, 2) }) {
            painter.setPen(QPen(colour, wide));
            painter.drawLine(at - QPointF(8, 0), at + QPointF(8, 0));
            painter.drawLine(at - QPointF(0, 8), at + QPointF(0, 8));
        }
    }
    painter.setPen(theme_.quiet);
    painter.drawText(QRectF(0, place.bottom() + 4, width(), foot), flags, words_);
}

} // namespace washfast::ui
