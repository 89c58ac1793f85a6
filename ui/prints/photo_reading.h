// Takes a picture file in: checks that it can be shown, reads its size, and gives what the notebook stores of it.
#pragma once

#include "core/quantity/result.h"

#include <QByteArray>
#include <QImage>
#include <QSize>
#include <QString>

namespace washfast::ui {

struct TakenPhoto {
    QByteArray bytes; // the file as it came
    QString name; // its file name, without a folder
    QString format; // jpeg, png, tiff, webp
    QString sha256; // hexadecimal
    QSize size; // upright
};

/// Errors: the file cannot be read, is larger than 200 MB, is no picture of a known kind, or is cut off.
[[nodiscard]] Result<TakenPhoto> takePhoto(const QString& path);
/// An upright picture no larger than `most`; null when the bytes cannot be shown.
[[nodiscard]] QImage uprightPicture(const QByteArray& bytes, const QSize& most);

} // namespace washfast::ui
