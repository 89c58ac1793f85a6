#include "ui/causes/picture_pane.h"

#include <QKeyEvent>
#include <QMouseEvent>

namespace washfast::ui {

PicturePane::PicturePane(const ThemeSource& look, QWidget* parent)
    : QWidget(parent)
    , look_(look)
{
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(320, 180);
    connect(&look, &ThemeSource::changed, this, qOverload<>(&QWidget::update));
}

void PicturePane::setPicture(Paint paint, const QStringList& codes)
{
    paint_ = std::move(paint);
    codes_ = codes;
    places_.clear();
    pointed_ = -1;
    update();
}

QImage PicturePane::image(const QSize& size, const Theme& theme) const
{
    QImage picture(size * 2, QImage::Format_RGB32);
    picture.setDevicePixelRatio(2);
    picture.fill(theme.sheet);
    if (paint_) {
        QPainter painter(&picture);
        painter.setFont(font());
        paint_(painter, QRectF(QPointF(0, 0), QSizeF(size)), theme, -1);
    }
    return picture;
}

void PicturePane::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setFont(font());
    painter.fillRect(rect(), look_.theme().sheet);
    if (paint_)
        places_ = paint_(painter, rect(), look_.theme(), pointed_);
    if (hasFocus()) {
        painter.setPen(QPen(look_.theme().blue, 1));
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
}

int PicturePane::markAt(const QPointF& place) const
{
    constexpr double near = 9;
    int best = -1;
    double distance = near * near;
    for (size_t i = 0; i < places_.size(); ++i) {
        const auto off = places_[i] - place;
        if (const double d = QPointF::dotProduct(off, off); d < distance) {
            distance = d;
            best = int(i);
        }
    }
    return best;
}

void PicturePane::point(int at)
{
    if (at == pointed_)
        return;
    pointed_ = at;
    update();
    Q_EMIT pointedAt(at < 0 ? QString() : codes_.value(at));
}

void PicturePane::mouseMoveEvent(QMouseEvent* event)
{
    point(markAt(event->position()));
}

void PicturePane::leaveEvent(QEvent*)
{
    point(-1);
}

void PicturePane::mousePressEvent(QMouseEvent* event)
{
    const int at = markAt(event->position());
    if (at >= 0 && event->button() == Qt::LeftButton)
        Q_EMIT picked(codes_.value(at));
    QWidget::mousePressEvent(event);
}

void PicturePane::keyPressEvent(QKeyEvent* event)
{
    const int n = int(codes_.size());
    const bool forward = event->key() == Qt::Key_Right || event->key() == Qt::Key_Down;
    const bool back = event->key() == Qt::Key_Left || event->key() == Qt::Key_Up;
    if (n > 0 && (forward || back)) {
        point(pointed_ < 0 ? (forward ? 0 : n - 1) : (pointed_ + (forward ? 1 : n - 1)) % n);
        return;
    }
    if (pointed_ >= 0 && (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)) {
        Q_EMIT picked(codes_.value(pointed_));
        return;
    }
    QWidget::keyPressEvent(event);
}

} // namespace washfast::ui
