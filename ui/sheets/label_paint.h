// Labels on a sheet of labels: bottles and prints, as PDF.
#pragma once

#include "core/chemistry/label.h"
#include "ui/sheets/page.h"

#include <variant>

namespace washfast::ui::sheets {

using Label = std::variant<chemistry::BottleLabel, chemistry::PrintLabel>;

/// One label in its box, in the units of a page.
void paintLabel(QPainter& painter, const QRectF& box, const Label& label);
/// Place of a label on the page, counted from 0 along the rows.
[[nodiscard]] QRectF labelBox(const chemistry::LabelSheet& sheet, int place);
/// Labels from place `first` of the first page on: a sheet that was begun can be used up.
[[nodiscard]] int labelPages(const chemistry::LabelSheet& sheet, int labels, int first = 0);
[[nodiscard]] PaintPage labelPainter(chemistry::LabelSheet sheet, std::vector<Label> labels, int first = 0);
[[nodiscard]] Outcome writeLabels(
    const QString& path, const chemistry::LabelSheet& sheet, const std::vector<Label>& labels, int first = 0);

} // namespace washfast::ui::sheets
