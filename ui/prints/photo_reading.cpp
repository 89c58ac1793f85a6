#include "ui/prints/photo_reading.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QCryptographicHash>
#include <QFile>
#include <QFileInfo>
#include <QImageReader>

namespace washfast::ui {

namespace {

constexpr qint64 largestFile = 200LL * 1000 * 1000;
// A 100-megapixel picture with 16 bits a channel takes 800 MB; Qt's own limit of 128 MB refuses a 24-megapixel TIFF.
constexpr int decodeLimitMb = 1024;

QString tr(const char* text)
{
    return QCoreApplication::translate("Photo", text);
}

QImage decoded(const QByteArray& bytes, const QSize& most, QByteArray* format, QSize* size, QString* problem)
{
    QBuffer buffer;
    buffer.setData(bytes);
    buffer.open(QIODevice::ReadOnly);
    QImageReader reader(&buffer);
    QImageReader::setAllocationLimit(decodeLimitMb);
    reader.setAutoTransform(true);
    if (format)
        *format = reader.format();
    const bool turned = reader.transformation().testFlag(QImageIOHandler::TransformationRotate90);
    QSize upright = turned ? reader.size().transposed() : reader.size();
    if (size)
        *size = upright;
    if (most.isValid() && upright.isValid() && (upright.width() > most.width() || upright.height() > most.height())) {
        upright.scale(most, Qt::KeepAspectRatio);
        reader.setScaledSize(turned ? upright.transposed() : upright);
    }
    auto image = reader.read();
    if (image.isNull() && problem)
        *problem = reader.errorString();
    return image;
}

} // namespace

Result<TakenPhoto> takePhoto(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return Error { Trouble::NotFound, tr("The picture cannot be read: %1.").arg(file.errorString()), path };
    if (file.size() > largestFile)
        return Error { Trouble::BadInput, tr("The picture is larger than 200 MB."), path };
    TakenPhoto photo;
    photo.bytes = file.readAll();
    photo.name = QFileInfo(path).fileName();
    QByteArray format;
    QString problem;
    const auto image = decoded(photo.bytes, {}, &format, &photo.size, &problem);
    photo.format = QString::fromLatin1(format == "jpg" ? QByteArray("jpeg") : format == "tif" ? QByteArray("tiff") : format);
    if (!QStringList { QStringLiteral("jpeg"), QStringLiteral("png"), QStringLiteral("tiff"), QStringLiteral("webp") }.contains(photo.format))
        return Error { Trouble::BadInput, tr("This is not a JPEG, PNG, TIFF or WebP picture."), path };
    if (image.isNull())
        return Error { Trouble::BadInput, tr("The picture is damaged or cut off (%1).").arg(problem), path };
    photo.size = image.size();
    photo.sha256 = QString::fromLatin1(QCryptographicHash::hash(photo.bytes, QCryptographicHash::Sha256).toHex());
    return photo;
}

QImage uprightPicture(const QByteArray& bytes, const QSize& most)
{
    return decoded(bytes, most, nullptr, nullptr, nullptr);
}

} // namespace washfast::ui
