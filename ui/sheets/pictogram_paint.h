// The hazard pictograms of the GHS (United Nations, Globally Harmonized System, Annex 1): a square on its point with a
// red edge, a black symbol on white. The drawings are our own, after what the standard shows.
#pragma once

#include <QRectF>
#include <QString>

class QPainter;

namespace washfast::ui::sheets {

/// `code` is GHS03, GHS05, GHS06, GHS07, GHS08 or GHS09; another one gives an empty diamond.
void paintPictogram(QPainter& painter, const QRectF& box, const QString& code);

} // namespace washfast::ui::sheets
