// What a picture file says about itself, read before its pixels: kind, whether it is whole, colours, orientation,
// profile, time. Used by photo.cpp.
#pragma once

#include "core/quantity/result.h"

#include <QByteArray>
#include <array>

namespace washfast::density {

enum class PhotoKind { Jpeg, Png, Tiff, WebP };

struct PhotoFile {
    PhotoKind kind = PhotoKind::Jpeg;
    int orientation = 1; // 1 to 8, as TIFF 6.0 numbers them
    QByteArray profile; // ICC; empty when there is none
    QString taken_at; // ISO 8601
    bool taken_without_offset = false;
    std::array<double, 3> grain {}, rounding { 1, 1, 1 }; // as in Photo
};

/// Refuses what is none of the four kinds, cut off, CMYK or Lab.
[[nodiscard]] Result<PhotoFile> lookAtPhoto(const QByteArray& bytes);

} // namespace washfast::density
