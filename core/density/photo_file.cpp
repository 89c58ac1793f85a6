#include "core/density/photo_file.h"

#include "core/density/refuse.h"
#include "core/density/words.h"

#include <algorithm>
#include <cmath>
#include <exiv2/exiv2.hpp>
#include <mutex>
#include <numbers>
#include <optional>

namespace washfast::density {

namespace {

const char* const cutOff = QT_TRANSLATE_NOOP("Density", "The picture is cut off: its end is missing.");

/// A byte; 0 beyond the end, so that a file which is cut off inside a number is not read beyond it. Whether the bytes
/// are there is asked where it matters.
unsigned at(const QByteArray& bytes, qsizetype i)
{
    return i >= 0 && i < bytes.size() ? static_cast<unsigned char>(bytes[i]) : 0U;
}

unsigned big(const QByteArray& bytes, qsizetype i, int count)
{
    unsigned value = 0;
    for (int k = 0; k < count; ++k)
        value = value << 8 | at(bytes, i + k);
    return value;
}

/// What the quantisation tables of a JPEG leave of an even patch: the mean of each block of 8 x 8 is kept in steps of
/// an eighth of the table's first number, for brightness and the two colours (ITU-T T.81, A.3.3 and A.3.4; from YCbCr
/// to RGB by JFIF).
class JpegSteps {
public:
    void readTables(const QByteArray& bytes, qsizetype from, qsizetype to)
    {
        while (from < to) {
            const unsigned about = at(bytes, from);
            const int wide = about >> 4 ? 2 : 1;
            if (from + 1 + 64 * wide > to)
                return;
            first_[about & 3] = big(bytes, from + 1, wide);
            from += 1 + 64 * wide;
        }
    }
    void readFrame(const QByteArray& bytes, qsizetype i, qsizetype to)
    {
        count_ = int(at(bytes, i + 9));
        for (int c = 0; c < std::min(count_, 3); ++c)
            if (i + 12 + 3 * c < to)
                table_[size_t(c)] = at(bytes, i + 12 + 3 * c) & 3;
    }
    void readAdobe(const QByteArray& bytes, qsizetype i, qsizetype to)
    {
        if (i + 16 <= to && bytes.mid(i + 4, 5) == "Adobe")
            plain_rgb_ = at(bytes, i + 15) == 0;
    }
    [[nodiscard]] std::array<double, 3> grain() const
    {
        const auto step = [&](size_t component) { return first_[table_[component]] / 8.0; };
        return inRgb(step(0), step(count_ == 3 ? 1 : 0), step(count_ == 3 ? 2 : 0));
    }
    /// Brightness and colours are rounded when they are made and when they are unpacked, the codes once more.
    [[nodiscard]] std::array<double, 3> rounding() const
    {
        const double twice = std::numbers::sqrt2;
        auto steps = inRgb(twice, twice, twice);
        if (count_ == 3 && !plain_rgb_)
            for (auto& one : steps)
                one = std::hypot(1, one);
        return steps;
    }

private:
    [[nodiscard]] std::array<double, 3> inRgb(double first, double second, double third) const
    {
        if (count_ != 3)
            return { first, first, first };
        if (plain_rgb_)
            return { first, second, third };
        return { std::hypot(first, 1.402 * third), std::hypot(first, 0.344 * second, 0.714 * third),
            std::hypot(first, 1.772 * second) };
    }

    std::array<unsigned, 4> first_ {};
    std::array<unsigned, 3> table_ {};
    int count_ = 0;
    bool plain_rgb_ = false;
};

/// Length of a frame header without components: its own two bytes, precision, lines, samples, count (T.81, B.2.2).
constexpr qsizetype shortestFrame = 8;

/// JPEG (ITU-T T.81, annex B): walks the segments up to the end-of-image marker.
std::optional<Error> lookAtJpeg(const QByteArray& bytes, PhotoFile& file)
{
    JpegSteps steps;
    qsizetype i = 2;
    const qsizetype size = bytes.size();
    bool scans = false;
    while (i + 1 < size) {
        if (at(bytes, i) != 0xFF) {
            if (!scans)
                return refuse(
                    QT_TRANSLATE_NOOP("Density", "The picture is damaged near its beginning."), Trouble::Damaged);
            i = bytes.indexOf('\xFF', i); // inside a scan
            if (i < 0)
                break;
            continue;
        }
        const unsigned marker = at(bytes, i + 1);
        if (marker == 0xD9) {
            file.grain = steps.grain();
            file.rounding = steps.rounding();
            return {};
        }
        if (marker == 0xFF || marker == 0x00 || marker == 0x01 || (marker >= 0xD0 && marker <= 0xD8)) {
            i += marker == 0xFF ? 1 : 2;
            continue;
        }
        if (i + 4 > size)
            break;
        const qsizetype length = qsizetype(big(bytes, i + 2, 2));
        const bool frame = marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
        if (length < 2 || i + 2 + length > size || (frame && length < shortestFrame))
            break;
        if (frame) {
            if (at(bytes, i + 4) != 8)
                return refuse(QT_TRANSLATE_NOOP("Density", "This kind of JPEG (not 8 bits a channel) cannot be read."));
            if (at(bytes, i + 9) == 4)
                return refuse(QT_TRANSLATE_NOOP("Density",
                    "The picture is in printing inks (CMYK), which say nothing about light. Save it as RGB."));
        }
        const qsizetype end = i + 2 + length;
        if (marker == 0xDB)
            steps.readTables(bytes, i + 4, end);
        else if (marker == 0xEE)
            steps.readAdobe(bytes, i, end);
        else if (frame)
            steps.readFrame(bytes, i, end);
        scans = scans || marker == 0xDA;
        i = end;
    }
    return refuse(cutOff, Trouble::Damaged);
}

/// PNG (ISO/IEC 15948): walks the chunks up to IEND.
std::optional<Error> lookAtPng(const QByteArray& bytes)
{
    qsizetype i = 8;
    while (i + 12 <= bytes.size()) {
        const qsizetype length = qsizetype(big(bytes, i, 4));
        if (bytes.mid(i + 4, 4) == "IEND")
            return {};
        i += 12 + length;
    }
    return refuse(cutOff, Trouble::Damaged);
}

std::optional<Error> lookAtWebP(const QByteArray& bytes)
{
    const qsizetype length = qsizetype(at(bytes, 4) | at(bytes, 5) << 8 | at(bytes, 6) << 16 | at(bytes, 7) << 24);
    if (bytes.size() < length + 8)
        return refuse(cutOff, Trouble::Damaged);
    return {};
}

/// "2026:03:14 10:15:30" and "+01:00" into ISO 8601.
QString isoTime(const QString& day_and_time, const QString& offset)
{
    if (day_and_time.size() < 19 || day_and_time.startsWith(QLatin1String("0000")))
        return {};
    QString iso = day_and_time.left(19);
    for (const int i : { 4, 7 })
        iso[i] = QLatin1Char('-');
    iso[10] = QLatin1Char('T');
    for (const int i : { 0, 1, 2, 3, 5, 6, 8, 9, 11, 12, 14, 15, 17, 18 })
        if (!iso[i].isDigit())
            return {};
    const bool good = offset.size() == 6 && (offset[0] == QLatin1Char('+') || offset[0] == QLatin1Char('-'));
    return good ? iso + offset : iso;
}

std::optional<Error> readTags(const QByteArray& bytes, PhotoFile& file)
{
    static std::once_flag ready; // several photos are read at a time
    std::call_once(ready, [] {
        Exiv2::XmpParser::initialize();
        Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute); // what is wrong with tags is no matter for the person
    });
    try {
        const auto image
            = Exiv2::ImageFactory::open(reinterpret_cast<const Exiv2::byte*>(bytes.constData()), size_t(bytes.size()));
        if (!image.get())
            return {};
        image->readMetadata();
        const auto& tags = image->exifData();
        const auto text = [&](const char* key) {
            const auto found = tags.findKey(Exiv2::ExifKey(key));
            return found == tags.end() ? QString() : QString::fromStdString(found->toString()).trimmed();
        };
        const auto number = [&](const char* key) -> std::optional<int> {
            const auto found = tags.findKey(Exiv2::ExifKey(key));
            if (found == tags.end() || found->count() < 1)
                return {};
            return int(found->toLong());
        };
        if (const auto turned = number("Exif.Image.Orientation"); turned && *turned >= 1 && *turned <= 8)
            file.orientation = *turned;
        file.taken_at = isoTime(text("Exif.Photo.DateTimeOriginal"), text("Exif.Photo.OffsetTimeOriginal"));
        if (file.taken_at.isEmpty())
            file.taken_at = isoTime(text("Exif.Image.DateTime"), text("Exif.Photo.OffsetTime"));
        file.taken_without_offset = file.taken_at.size() == 19;
        if (image->iccProfileDefined()) {
            const Exiv2::DataBuf* profile = image->iccProfile();
            file.profile = QByteArray(reinterpret_cast<const char*>(profile->pData_), qsizetype(profile->size_));
        }
        if (file.kind == PhotoKind::Tiff) {
            if (const auto found = tags.findKey(Exiv2::ExifKey("Exif.Image.InterColorProfile"));
                file.profile.isEmpty() && found != tags.end()) {
                file.profile.resize(qsizetype(found->size()));
                found->copy(reinterpret_cast<Exiv2::byte*>(file.profile.data()), Exiv2::littleEndian);
            }
            switch (number("Exif.Image.PhotometricInterpretation").value_or(2)) {
            case 5:
                return refuse(QT_TRANSLATE_NOOP("Density",
                    "The picture is in printing inks (CMYK), which say nothing about light. Save it as RGB."));
            case 8:
            case 9:
            case 10:
                return refuse(QT_TRANSLATE_NOOP("Density", "The picture is stored as Lab. Save it as RGB."));
            default:
                break;
            }
        }
    } catch (const std::exception&) {
        // Tags that cannot be read are as good as none; the pixels are judged by their own reader.
    }
    return {};
}

} // namespace

Result<PhotoFile> lookAtPhoto(const QByteArray& bytes)
{
    PhotoFile file;
    std::optional<Error> wrong;
    if (bytes.isEmpty())
        return refuse(QT_TRANSLATE_NOOP("Density", "The file is empty."));
    if (bytes.startsWith("\xFF\xD8")) {
        file.kind = PhotoKind::Jpeg;
        wrong = lookAtJpeg(bytes, file);
    } else if (bytes.startsWith("\x89PNG\r\n\x1A\n")) {
        file.kind = PhotoKind::Png;
        wrong = lookAtPng(bytes);
    } else if (bytes.startsWith(QByteArray("II*\0", 4)) || bytes.startsWith(QByteArray("MM\0*", 4))) {
        file.kind = PhotoKind::Tiff;
    } else if (bytes.size() >= 16 && bytes.startsWith("RIFF") && bytes.mid(8, 4) == "WEBP") {
        file.kind = PhotoKind::WebP;
        wrong = lookAtWebP(bytes);
    } else {
        return refuse(QT_TRANSLATE_NOOP("Density", "This is no JPEG, PNG, TIFF or WebP picture."));
    }
    if (wrong)
        return *wrong;
    if (auto refused = readTags(bytes, file))
        return *refused;
    return file;
}

} // namespace washfast::density
