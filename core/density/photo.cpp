#include "core/density/photo.h"

#include "core/density/photo_file.h"
#include "core/density/profile.h"
#include "core/density/words.h"
#include "core/files/read_once.h"

#include <QBuffer>
#include <QColorSpace>
#include <QImageReader>
#include <QTransform>

namespace washfast::density {

namespace {

/// Orientation numbers of TIFF 6.0: 5 to 8 are lying on a side.
QImage upright(const QImage& image, int orientation)
{
    switch (orientation) {
    case 2:
        return image.mirrored(true, false);
    case 3:
        return image.mirrored(true, true);
    case 4:
        return image.mirrored(false, true);
    case 5:
        return image.transformed(QTransform().rotate(90)).mirrored(true, false);
    case 6:
        return image.transformed(QTransform().rotate(90));
    case 7:
        return image.transformed(QTransform().rotate(270)).mirrored(true, false);
    case 8:
        return image.transformed(QTransform().rotate(270));
    default:
        return image;
    }
}

bool isDeep(QImage::Format format)
{
    return format == QImage::Format_RGBX64 || format == QImage::Format_RGBA64
        || format == QImage::Format_RGBA64_Premultiplied || format == QImage::Format_Grayscale16;
}

/// A reader that gives up when it is cancelled, so that a large file does not have to be decoded to the end.
class WatchedBuffer : public QBuffer {
public:
    WatchedBuffer(const QByteArray& bytes, const Watch& watch)
        : watch_(watch)
    {
        setData(bytes);
        open(QIODevice::ReadOnly);
    }

protected:
    qint64 readData(char* to, qint64 size) override
    {
        if (watch_.cancelled())
            return -1;
        const qint64 got = QBuffer::readData(to, size);
        watch_.tell(0.9 * double(pos()) / double(std::max<qint64>(1, this->size())));
        return got;
    }

private:
    const Watch& watch_;
};

} // namespace

std::array<int, 3> Photo::codes(int x, int y) const
{
    if (bits == 8) {
        const QRgb pixel = reinterpret_cast<const QRgb*>(image.constScanLine(y))[x];
        return { qRed(pixel), qGreen(pixel), qBlue(pixel) };
    }
    const QRgba64 pixel = reinterpret_cast<const QRgba64*>(image.constScanLine(y))[x];
    return { pixel.red(), pixel.green(), pixel.blue() };
}

Result<Photo> readPhoto(const QByteArray& bytes, const QString& name, const Watch& watch, const PhotoLimits& limits)
{
    const auto refuse = [&](Error error) {
        error.where = name;
        return error;
    };
    if (bytes.size() > limits.file_bytes)
        return refuse({ Trouble::BadInput, Words::tr("The file is too large."), {} });
    const auto file = lookAtPhoto(bytes);
    if (!file)
        return refuse(file.error());

    WatchedBuffer buffer(bytes, watch);
    constexpr const char* formats[] { "jpeg", "png", "tiff", "webp" };
    QImageReader::setAllocationLimit(limits.decoded_megabytes); // a limit of the whole process
    QImageReader reader(&buffer, formats[int(file->kind)]);
    reader.setAutoDetectImageFormat(false);
    reader.setAutoTransform(false); // done below, for all four kinds
    const QSize size = reader.size();
    if (size.isValid() && qint64(size.width()) * size.height() > limits.pixels)
        return refuse({ Trouble::BadInput,
            Words::tr("The picture has %1 megapixels, more than the %2 that can be measured.")
                .arg(qint64(size.width()) * size.height() / 1'000'000)
                .arg(limits.pixels / 1'000'000),
            {} });
    QImage image;
    const bool whole = reader.read(&image);
    if (watch.cancelled())
        return stopped(name);
    if (!whole || image.isNull())
        return refuse({ Trouble::Damaged, Words::tr("The picture is damaged or cut off and cannot be read."), {} });

    Photo photo;
    photo.name = name;
    photo.grain = file->grain;
    photo.rounding = file->rounding;
    photo.bits = isDeep(image.format()) ? 16 : 8;
    if (image.hasAlphaChannel())
        photo.notes << Words::tr("The picture has see-through parts, which are taken as solid.");
    image.setColorSpace({});
    image = std::move(image).convertToFormat(photo.bits == 16 ? QImage::Format_RGBX64 : QImage::Format_RGB32);
    photo.image = upright(image, file->orientation);
    if (photo.image.isNull())
        return refuse({ Trouble::Failed, Words::tr("There is not enough memory for this picture."), {} });

    ProfileShape shape;
    if (file->profile.isEmpty()) {
        shape = srgbShape(1 << photo.bits);
        photo.notes << Words::tr("The file has no colour profile and is taken as sRGB.");
    } else {
        auto read = readProfile(file->profile, 1 << photo.bits);
        if (!read)
            return refuse(read.error());
        shape = std::move(read).value();
        if (shape.has_tables_too)
            photo.notes << Words::tr("The colour profile has tables beside its tone curves; only the curves are used.");
    }
    photo.linear = std::move(shape.linear);
    photo.to_xyz_d50 = shape.to_xyz_d50;
    photo.profile = shape.name;
    photo.taken_at = file->taken_at;
    if (file->taken_without_offset)
        photo.notes << Words::tr("The time in the file is the camera's own, without an offset.");
    watch.tell(1.0);
    return photo;
}

Result<Photo> openPhoto(const QString& path, const Watch& watch, const PhotoLimits& limits)
{
    const auto bytes = files::readOnce(path, limits.file_bytes);
    if (!bytes)
        return bytes.error();
    return readPhoto(*bytes, files::spokenName(path), watch, limits);
}

} // namespace washfast::density
