// How the point layer draws: signs for vector files, a cached picture for screens.
#include "ui/common/point_layer.h"

#include <QHash>
#include <QPaintEngine>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

// Above this many points halos only cost time and hide neighbours.
constexpr int haloLimit = 2000;
// Distinct colours and shapes whose signs are kept while one picture is drawn.
constexpr int mostSprites = 4096;
// A picture inside a vector file has this many pixels to a logical one.
constexpr double pictureScale = 3.0;

bool keepsShapes(const QPaintEngine* engine)
{
    return engine && engine->type() != QPaintEngine::Raster && engine->type() != QPaintEngine::OpenGL2;
}

// A sign in pixels, and where its corner lies from the pixel of the point.
struct Sprite {
    QImage image;
    QPoint corner;
};

// Without the clear margin: most of a sprite's pixels are in it.
Sprite trimmed(const QImage& image, const QPoint& centre)
{
    int left = image.width(), top = image.height(), right = -1, bottom = -1;
    for (int y = 0; y < image.height(); ++y) {
        const auto* line = reinterpret_cast<const QRgb*>(image.constScanLine(y));
        for (int x = 0; x < image.width(); ++x) {
            if (qAlpha(line[x]) == 0)
                continue;
            left = std::min(left, x);
            right = std::max(right, x);
            top = std::min(top, y);
            bottom = std::max(bottom, y);
        }
    }
    const QRect box(QPoint(left, top), QPoint(right, bottom));
    return box.isValid() ? Sprite { image.copy(box), box.topLeft() - centre } : Sprite {};
}

// Source over destination, both premultiplied, cut at the edges of the target.
void blend(uchar* bits, qsizetype bytesPerLine, const QSize& size, const Sprite& sprite, const QPoint& pixel)
{
    const int left = pixel.x() + sprite.corner.x();
    const int top = pixel.y() + sprite.corner.y();
    const int x0 = std::max(0, -left), x1 = std::min(sprite.image.width(), size.width() - left);
    const int y0 = std::max(0, -top), y1 = std::min(sprite.image.height(), size.height() - top);
    for (int y = y0; y < y1; ++y) {
        const auto* from = reinterpret_cast<const QRgb*>(sprite.image.constScanLine(y));
        auto* to = reinterpret_cast<QRgb*>(bits + (top + y) * bytesPerLine) + left;
        for (int x = x0; x < x1; ++x) {
            const QRgb source = from[x];
            const int alpha = qAlpha(source);
            if (alpha == 255) {
                to[x] = source;
            } else if (alpha != 0) {
                const QRgb under = to[x];
                const int rest = 255 - alpha;
                const auto part = [rest](int above, int below) { return above + (below * rest + 127) / 255; };
                to[x] = qRgba(part(qRed(source), qRed(under)), part(qGreen(source), qGreen(under)),
                    part(qBlue(source), qBlue(under)), part(alpha, qAlpha(under)));
            }
        }
    }
}

} // namespace

QColor PointLayer::halo() const
{
    return drawable_ <= haloLimit ? theme_.sheet : QColor();
}

QImage PointLayer::drawn(const QTransform& toDevice, const QRect& deviceRect) const
{
    QImage image(deviceRect.size(), QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    const auto& where = places();
    const double scale = toDevice.m11();
    const int half = static_cast<int>(std::ceil(glyphReach(size_) * scale)) + 1;
    const int side = 2 * half + 1;

    const auto makeSprite = [&](QRgb colour, PointShape shape) {
        QImage sprite(side, side, QImage::Format_ARGB32_Premultiplied);
        sprite.fill(Qt::transparent);
        QPainter painter(&sprite);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(half + 0.5, half + 0.5);
        painter.scale(scale, scale);
        paintGlyph(painter, QPointF(), size_, shape, QColor::fromRgba(colour), halo());
        painter.end();
        return trimmed(sprite, QPoint(half, half));
    };
    QHash<quint64, Sprite> sprites;
    uchar* const bits = image.bits();
    const qsizetype bytesPerLine = image.bytesPerLine();
    const auto stamp = [&](std::size_t index) {
        if (std::isnan(where[index].x()))
            return;
        const quint64 key = (static_cast<quint64>(shapeOf(index)) << 32) | colourOf(index);
        auto found = sprites.find(key);
        if (found == sprites.end()) {
            if (sprites.size() >= mostSprites)
                sprites.clear();
            found = sprites.insert(key, makeSprite(colourOf(index), shapeOf(index)));
        }
        const QPointF device = toDevice.map(where[index]) - QPointF(deviceRect.topLeft());
        blend(bits, bytesPerLine, image.size(), *found,
            QPoint(static_cast<int>(std::floor(device.x())), static_cast<int>(std::floor(device.y()))));
    };
    for (std::size_t i = 0; i < where.size(); ++i)
        stamp(i);

    if (!selected_.isEmpty()) {
        QPainter painter(&image);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(-QPointF(deviceRect.topLeft()));
        painter.setTransform(toDevice, true);
        for (const int index : selected_)
            if (const auto place = placeOf(index))
                paintGlyph(painter, *place, size_ * 1.3, shapeOf(static_cast<std::size_t>(index)),
                    QColor::fromRgba(colourOf(static_cast<std::size_t>(index))), theme_.ink);
    }
    return image;
}

void PointLayer::paintVector(QPainter& painter) const
{
    const auto& where = places();
    if (drawable_ > vectorLimit) {
        const QRectF box = boundingRect();
        const QTransform enlarge = QTransform::fromScale(pictureScale, pictureScale);
        const QRect deviceRect = enlarge.mapRect(box).toAlignedRect();
        painter.drawImage(enlarge.inverted().mapRect(QRectF(deviceRect)), drawn(enlarge, deviceRect));
        return;
    }
    for (std::size_t i = 0; i < where.size(); ++i)
        if (!std::isnan(where[i].x()))
            paintGlyph(painter, where[i], size_, shapeOf(i), QColor::fromRgba(colourOf(i)), halo());
    for (const int index : selected_)
        if (const auto place = placeOf(index))
            paintGlyph(painter, *place, size_ * 1.3, shapeOf(static_cast<std::size_t>(index)),
                QColor::fromRgba(colourOf(static_cast<std::size_t>(index))), theme_.ink);
}

void PointLayer::paintPicture(QPainter& painter, bool keep)
{
    const QTransform toDevice = painter.deviceTransform();
    if (toDevice.type() > QTransform::TxScale || toDevice.m11() <= 0 || toDevice.m22() <= 0) {
        paintVector(painter);
        return;
    }
    const QRect deviceRect = toDevice.mapRect(boundingRect()).toAlignedRect();
    const QRectF place = toDevice.inverted().mapRect(QRectF(deviceRect));
    if (!keep) {
        painter.drawImage(place, drawn(toDevice, deviceRect));
        return;
    }
    if (!pictureKnown_ || pictureTransform_ != toDevice || pictureFrame_ != frame()) {
        picture_ = drawn(toDevice, deviceRect);
        pictureTransform_ = toDevice;
        pictureFrame_ = frame();
        pictureKnown_ = true;
        ++drawnTimes_;
    }
    // One pixel of the picture on one of the device: no resampling.
    painter.drawImage(place, picture_);
}

void PointLayer::paintOverlay(QPainter& painter) const
{
    if (current_) {
        if (const auto place = placeOf(*current_)) {
            const double radius = size_ / 2 + 3.5;
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen(theme_.sheet, 4));
            painter.drawEllipse(*place, radius, radius);
            painter.setPen(QPen(theme_.ink, 2));
            painter.drawEllipse(*place, radius, radius);
        }
    }
    if (!band_.isEmpty()) {
        QColor fill = theme_.blue;
        fill.setAlpha(40);
        painter.setPen(QPen(theme_.blue, 1, Qt::DashLine));
        painter.setBrush(fill);
        painter.drawRect(band_);
    }
}

void PointLayer::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget* widget)
{
    if (!frame().isValid())
        return;
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    if (keepsShapes(painter->paintEngine()))
        paintVector(*painter);
    else
        paintPicture(*painter, widget != nullptr);
    // Without a widget the scene is on its way into a file, where the pointer has no place.
    if (widget)
        paintOverlay(*painter);
    painter->restore();
}

} // namespace washfast::ui
