// Opening photos: kinds, depth, orientation, profiles, and what is refused.
#include "core/density/photo.h"
#include "core/density/profile.h"

#include <QBuffer>
#include <QColorSpace>
#include <QImageWriter>
#include <QTemporaryDir>
#include <exiv2/exiv2.hpp>
#include <gmock/gmock.h>
#include <lcms2.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using testing::AnyOf;
using testing::HasSubstr;

namespace {

QImage sample(QImage::Format format = QImage::Format_RGB32)
{
    QImage image(64, 40, format);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            image.setPixelColor(x, y, QColor(x * 4, y * 6, (x + y) * 2));
    return image;
}

QByteArray encode(const QImage& image, const char* format, int quality = 100)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    EXPECT_TRUE(image.save(&buffer, format, quality)) << format;
    return bytes;
}

Result<Photo> read(const QByteArray& bytes)
{
    return readPhoto(bytes, QStringLiteral("test"));
}

std::string complaint(const QByteArray& bytes)
{
    const auto photo = read(bytes);
    return photo ? "opened" : photo.error().sentence().toStdString();
}

QByteArray tagged(const QByteArray& jpeg, const std::function<void(Exiv2::ExifData&)>& tag)
{
    auto image = Exiv2::ImageFactory::open(reinterpret_cast<const Exiv2::byte*>(jpeg.constData()), size_t(jpeg.size()));
    image->readMetadata();
    tag(image->exifData());
    image->writeMetadata();
    auto& io = image->io();
    io.open();
    const auto bytes = io.read(long(io.size()));
    return { reinterpret_cast<const char*>(bytes.pData_), qsizetype(bytes.size_) };
}

} // namespace

TEST(OpenPhoto, LosslessKindsKeepEveryCode)
{
    const auto image = sample();
    for (const char* format : { "png", "tiff" }) {
        const auto photo = read(encode(image, format));
        ASSERT_TRUE(photo) << format << ": " << complaint(encode(image, format));
        EXPECT_EQ(photo->bits, 8);
        for (int y = 0; y < 40; ++y)
            for (int x = 0; x < 64; ++x)
                ASSERT_EQ(photo->codes(x, y), (std::array { x * 4, y * 6, (x + y) * 2 })) << format;
    }
    for (const char* format : { "jpeg", "webp" })
        EXPECT_TRUE(read(encode(image, format))) << format;
}

TEST(OpenPhoto, SixteenBitsStaySixteenBits)
{
    QImage image(8, 8, QImage::Format_RGBX64);
    for (int x = 0; x < 8; ++x)
        for (int y = 0; y < 8; ++y)
            reinterpret_cast<QRgba64*>(image.scanLine(y))[x]
                = QRgba64::fromRgba64(quint16(1000 * x + 7), 30001, 65535, 65535);
    for (const char* format : { "png", "tiff" }) {
        const auto photo = read(encode(image, format));
        ASSERT_TRUE(photo) << format;
        EXPECT_EQ(photo->bits, 16);
        for (int x = 0; x < 8; ++x)
            EXPECT_EQ(photo->codes(x, 3), (std::array { 1000 * x + 7, 30001, 65535 })) << format;
    }
}

// TIFF 6.0, tag 274: 6 means that the first row is the right-hand side.
TEST(OpenPhoto, StandsUpright)
{
    const auto upright = sample();
    for (int orientation = 1; orientation <= 8; ++orientation) {
        // The pixels as a camera that is held so would store them.
        QImage stored = upright;
        switch (orientation) {
        case 2:
            stored = upright.mirrored(true, false);
            break;
        case 3:
            stored = upright.mirrored(true, true);
            break;
        case 4:
            stored = upright.mirrored(false, true);
            break;
        case 5:
            stored = upright.transformed(QTransform().rotate(90)).mirrored(true, false);
            break;
        case 6:
            stored = upright.transformed(QTransform().rotate(-90));
            break;
        case 7:
            stored = upright.transformed(QTransform().rotate(-90)).mirrored(true, false);
            break;
        case 8:
            stored = upright.transformed(QTransform().rotate(90));
            break;
        }
        const auto bytes = tagged(encode(stored, "png"),
            [&](Exiv2::ExifData& exif) { exif["Exif.Image.Orientation"] = uint16_t(orientation); });
        const auto photo = read(bytes);
        ASSERT_TRUE(photo) << orientation;
        EXPECT_EQ(photo->image.size(), upright.size()) << orientation;
        for (const auto& [x, y] : { std::pair(0, 0), std::pair(63, 0), std::pair(5, 39), std::pair(40, 20) })
            EXPECT_EQ(photo->codes(x, y), (std::array { x * 4, y * 6, (x + y) * 2 })) << orientation;
    }
}

TEST(OpenPhoto, ReadsWhenItWasTaken)
{
    const auto jpeg = encode(sample(), "jpeg");
    EXPECT_TRUE(read(jpeg)->taken_at.isEmpty());
    const auto with_offset = tagged(jpeg, [](Exiv2::ExifData& exif) {
        exif["Exif.Photo.DateTimeOriginal"] = "2026:03:14 10:15:30";
        exif["Exif.Photo.OffsetTimeOriginal"] = "+01:00";
    });
    EXPECT_EQ(read(with_offset)->taken_at, QStringLiteral("2026-03-14T10:15:30+01:00"));
    const auto without
        = tagged(jpeg, [](Exiv2::ExifData& exif) { exif["Exif.Photo.DateTimeOriginal"] = "2026:03:14 10:15:30"; });
    EXPECT_EQ(read(without)->taken_at, QStringLiteral("2026-03-14T10:15:30"));
    EXPECT_THAT(read(without)->notes.join(QLatin1Char(' ')).toStdString(), HasSubstr("without an offset"));
    const auto nonsense
        = tagged(jpeg, [](Exiv2::ExifData& exif) { exif["Exif.Photo.DateTimeOriginal"] = "yesterday afternoon"; });
    EXPECT_TRUE(read(nonsense)->taken_at.isEmpty());
}

// The profile's curves and matrix against LittleCMS converting the same codes to Lab itself.
TEST(OpenPhoto, AnEmbeddedProfileIsUsed)
{
    auto image = sample();
    image.setColorSpace(QColorSpace(QColorSpace::AdobeRgb));
    const auto photo = read(encode(image, "png"));
    ASSERT_TRUE(photo);
    EXPECT_NE(photo->profile, QStringLiteral("sRGB"));
    const auto icc = QColorSpace(QColorSpace::AdobeRgb).iccProfile();
    cmsHPROFILE profile = cmsOpenProfileFromMem(icc.constData(), cmsUInt32Number(icc.size()));
    cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
    cmsHTRANSFORM transform
        = cmsCreateTransform(profile, TYPE_RGB_8, lab, TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    for (int x = 0; x < 64; x += 7)
        for (int y = 0; y < 40; y += 5) {
            const auto code = photo->codes(x, y);
            const unsigned char in[3] { static_cast<unsigned char>(code[0]), static_cast<unsigned char>(code[1]),
                static_cast<unsigned char>(code[2]) };
            cmsCIELab judged;
            cmsDoTransform(transform, in, &judged, 1);
            Triple linear {};
            for (size_t k = 0; k < 3; ++k)
                linear[k] = photo->linear[k][size_t(code[k])];
            const Lab ours = xyzToLab(multiply(photo->to_xyz_d50, linear), whiteD50);
            EXPECT_LT(ciede2000(ours, { judged.L, judged.a, judged.b }), 0.2) << x << ' ' << y;
        }
    cmsDeleteTransform(transform);
    cmsCloseProfile(profile);
    cmsCloseProfile(lab);
}

TEST(OpenPhoto, RefusesProfilesThatAreNotCurves)
{
    cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(lab, nullptr, &size);
    QByteArray icc(qsizetype(size), 0);
    cmsSaveProfileToMem(lab, icc.data(), &size);
    cmsCloseProfile(lab);
    EXPECT_FALSE(readProfile(icc, 256));
    EXPECT_FALSE(readProfile("not a profile at all", 256));
}

TEST(OpenPhoto, RefusesWhatIsCutOff)
{
    QImage noisy(300, 200, QImage::Format_RGB32);
    for (int y = 0; y < 200; ++y)
        for (int x = 0; x < 300; ++x)
            noisy.setPixel(x, y, qRgb((x * 37 + y * 91) % 256, (x * 53 + y * 17) % 256, (x * y) % 256));
    for (const char* format : { "jpeg", "png", "tiff", "webp" }) {
        const auto bytes = encode(noisy, format);
        ASSERT_TRUE(read(bytes)) << format;
        for (const double share : { 0.02, 0.3, 0.5, 0.9, 0.99 })
            EXPECT_THAT(complaint(bytes.left(qsizetype(share * double(bytes.size())))),
                AnyOf(HasSubstr("cut off"), HasSubstr("damaged"), HasSubstr("no JPEG")))
                << format << ' ' << share;
    }
    EXPECT_THAT(complaint({}), HasSubstr("empty"));
    EXPECT_THAT(complaint("GIF89a and so on"), HasSubstr("no JPEG, PNG, TIFF or WebP"));
}

TEST(OpenPhoto, RefusesInksAndTooManyPixels)
{
    // The frame header of a JPEG with four components (ITU-T T.81, B.2.2).
    const QByteArray cmyk = QByteArray::fromHex("ffd8ffc000140800080008"
                                                "04"
                                                "011100021100031100041100"
                                                "ffd9");
    EXPECT_THAT(complaint(cmyk), HasSubstr("CMYK"));
    PhotoLimits limits;
    limits.pixels = 1000;
    const auto refused = readPhoto(encode(sample(), "png"), QStringLiteral("test"), {}, limits);
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().sentence().toStdString(), HasSubstr("megapixels"));
}

TEST(OpenPhoto, CanBeStopped)
{
    const std::atomic<bool> cancel = true;
    const auto stopped = readPhoto(encode(sample(), "png"), QStringLiteral("test"), { {}, &cancel });
    ASSERT_FALSE(stopped);
    EXPECT_THAT(stopped.error().sentence().toStdString(), HasSubstr("Stopped"));
}

TEST(OpenPhoto, SaysWhatIsMissing)
{
    const auto photo = openPhoto(QStringLiteral("no/such/photo.jpg"));
    ASSERT_FALSE(photo);
    EXPECT_EQ(photo.error().code, Trouble::NotFound);
}

} // namespace WASHFAST_FILE
