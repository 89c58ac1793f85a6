// A text as a machine-readable square (the matrix symbol of ISO/IEC 18004, by ZXing), and reading it back from a photo.
#pragma once

#include "core/trial/notebook.h"

#include <QImage>

class QPainter;

namespace washfast::ui::sheets {

/// Fills the square `box` with the symbol and the quiet zone around it that the standard asks for (4 modules).
void paintSquareCode(QPainter& painter, const QRectF& box, const QString& text);

/// Codes of all print labels that can be read in a photo, each once.
[[nodiscard]] QStringList readLabels(const QImage& photo);
/// The code of the one print label in a photo; nothing when there is none, or when there are several and the photo
/// could belong to any of them.
[[nodiscard]] std::optional<QString> readLabel(const QImage& photo);
/// The print that a photo's label names, when the notebook has it.
[[nodiscard]] std::optional<qint64> printInPhoto(const Notebook& notebook, const QImage& photo);

/// For photos that are dropped all at once: each path with the print that its label names.
struct LabelledPhoto {
    QString path;
    std::optional<qint64> print;
    QString says; // why there is no print: no label, several, or a code that this notebook does not have
};
[[nodiscard]] std::vector<LabelledPhoto> assignByLabel(const Notebook& notebook, const QStringList& paths);

} // namespace washfast::ui::sheets
