#include "ui/prints/photo_reading.h"

#include "core/files/read_once.h"
#include "ui/prints/words.h"

#include <QBuffer>
#include <QCryptographicHash>
#include <QFileInfo>
#include <QImageReader>

namespace washfast::ui {

namespace {

constexpr qint64 largestFile = 200LL * 1000 * 1000;
// A 100-megapixel picture with 16 bits a channel takes 800 MB; Qt's own limit of 128 MB refuses a 24-megapixel TIFF.
constexpr int decodeLimitMb = 1024;

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

/// Whether a JPEG goes on to its end. A decoder fills what is missing of a picture that was cut off with grey and says
/// nothing. Markers and segments as in ITU-T Recommendation T.81 (1992), annex B.1.1; what follows the end (a second
/// picture, a maker's data) does not matter.
bool jpegHasEnd(const QByteArray& bytes)
{
    constexpr uchar fill = 0xFF, stuffed = 0x00, temporary = 0x01, restart_first = 0xD0, start_of_image = 0xD8,
                    end_of_image = 0xD9;
    constexpr qsizetype lengthBytes = 2;
    const auto at = [&](qsizetype i) { return static_cast<uchar>(bytes[i]); };
    qsizetype i = 0;
    while (i + 1 < bytes.size()) {
        if (at(i) != fill || at(i + 1) == fill || at(i + 1) == stuffed) { // inside a scan
            i += at(i) == fill && at(i + 1) == stuffed ? 2 : 1;
            continue;
        }
        const uchar marker = at(i + 1);
        i += 2;
        if (marker == end_of_image)
            return true;
        if (marker == temporary || (marker >= restart_first && marker <= start_of_image))
            continue; // stands alone
        if (i + lengthBytes > bytes.size())
            return false;
        i += at(i) * 256 + at(i + 1);
    }
    return false;
}

} // namespace

Result<TakenPhoto> takePhoto(const QString& path)
{
    auto bytes = files::readOnce(path, largestFile, files::From::DiskOnly);
    if (!bytes)
        return bytes.error();
    TakenPhoto photo;
    photo.bytes = std::move(bytes).value();
    photo.name = QFileInfo(path).fileName();
    QByteArray format;
    QString problem;
    const auto image = decoded(photo.bytes, {}, &format, &photo.size, &problem);
    photo.format = QString::fromLatin1(format == "jpg" ? QByteArray("jpeg")
            : format == "tif"                          ? QByteArray("tiff")
                                                       : format);
    if (!QStringList { QStringLiteral("jpeg"), QStringLiteral("png"), QStringLiteral("tiff"), QStringLiteral("webp") }
             .contains(photo.format))
        return Error { Trouble::BadInput, PrintsWords::tr("This is not a JPEG, PNG, TIFF or WebP picture."), path };
    if (image.isNull())
        return Error { Trouble::BadInput, PrintsWords::tr("The picture is damaged or cut off (%1).").arg(problem),
            path };
    if (photo.format == QLatin1String("jpeg") && !jpegHasEnd(photo.bytes))
        return Error { Trouble::BadInput, PrintsWords::tr("The picture is cut off before its end."), path };
    photo.size = image.size();
    photo.sha256 = QString::fromLatin1(QCryptographicHash::hash(photo.bytes, QCryptographicHash::Sha256).toHex());
    return photo;
}

QImage uprightPicture(const QByteArray& bytes, const QSize& most)
{
    return decoded(bytes, most, nullptr, nullptr, nullptr);
}

} // namespace washfast::ui
