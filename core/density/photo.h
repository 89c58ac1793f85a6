// A photo opened for measuring: upright, with its codes as the file has them and the exact way from a code to light.
//
// JPEG, PNG, TIFF (8 and 16 bits a channel) and WebP. The orientation tag is applied. An embedded profile is used for
// its tone curves and its matrix (LittleCMS); without one the file is taken as sRGB (IEC 61966-2-1). Refused with a
// sentence: files that are cut off or damaged, CMYK and Lab files, profiles that are tables of colours, and pictures
// above the limits below.
#pragma once

#include "core/density/colour.h"
#include "core/density/watch.h"
#include "core/quantity/result.h"

#include <QByteArray>
#include <QImage>
#include <QStringList>
#include <array>
#include <optional>
#include <vector>

namespace washfast::density {

/// How far a picture may go. Qt refuses above 128 MB unless told otherwise; a 24-megapixel photo of 16 bits has 192 MB.
struct PhotoLimits {
    qint64 pixels = 200'000'000;
    qint64 file_bytes = 1'500'000'000;
    int decoded_megabytes = 1'700;
};

struct Photo {
    QString name; // of the file, without its folder
    QImage image; // Format_RGB32 for 8 bits, Format_RGBX64 for 16
    int bits = 8;
    std::array<std::vector<double>, 3> linear; // light (0 to 1) of each code: red, green, blue
    /// Steps, in codes, in which the mean of an even patch is kept: by lossy packing (0 for none or unknown), and by
    /// all roundings to whole numbers on the way together.
    std::array<double, 3> grain {}, rounding { 1, 1, 1 };
    Matrix3 to_xyz_d50 {}; // linear light to XYZ, white (1, 1, 1) is D50
    QString profile; // its description; "sRGB" when there is none
    QString taken_at; // ISO 8601, with an offset when the file has one; empty when it says nothing
    QStringList notes; // sentences about what was assumed

    [[nodiscard]] int largestCode() const { return (1 << bits) - 1; }
    [[nodiscard]] int width() const { return image.width(); }
    [[nodiscard]] int height() const { return image.height(); }
    [[nodiscard]] std::array<int, 3> codes(int x, int y) const;
};

/// `path` may be a pipe, or "-" for standard input.
[[nodiscard]] Result<Photo> openPhoto(const QString& path, const Watch& watch = {}, const PhotoLimits& limits = {});
/// The same from memory; `name` is for the sentences.
[[nodiscard]] Result<Photo> readPhoto(
    const QByteArray& bytes, const QString& name, const Watch& watch = {}, const PhotoLimits& limits = {});

} // namespace washfast::density
