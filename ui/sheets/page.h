// Pages of paper: always ink on white, whatever the window looks like, and measured in twentieths of a millimetre.
#pragma once

#include "core/quantity/result.h"

#include <QImage>
#include <functional>

class QPainter;
class QTextDocument;

namespace washfast::ui::sheets {

inline constexpr double unitsPerMm = 20; // what a painter of a page counts in
[[nodiscard]] constexpr double mm(double millimetres)
{
    return millimetres * unitsPerMm;
}

/// Paints page `page`, counted from 0, with the origin at the upper left corner of the paper.
using PaintPage = std::function<void(QPainter& painter, int page)>;

/// An A4 PDF, written whole or not at all. Errors: those of files::writeFiles().
[[nodiscard]] Outcome writePdf(const QString& path, const QString& title, int pages, const PaintPage& paint);
/// The same page as a picture.
[[nodiscard]] QImage pageImage(const PaintPage& paint, int page, double dots_per_inch);

/// The family of the page, upright, with letters that fit a line of this many millimetres.
[[nodiscard]] QFont pageFont(double line_mm, bool bold = false);
/// A page of running text in HTML, made smaller when it would not fit into the height.
void paintHtml(QPainter& painter, const QString& html, const QRectF& box, double line_mm);
/// Whether it fits without being made smaller than a share of that.
[[nodiscard]] bool fitsHtml(const QString& html, const QRectF& box, double line_mm, double share = 1);
[[nodiscard]] QString escaped(const QString& text);

} // namespace washfast::ui::sheets
