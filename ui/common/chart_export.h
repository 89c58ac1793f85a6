// Takes a chart out of the program: SVG, PDF or PNG into a file, or a picture onto the clipboard.
//
// Files are written whole or not at all. Each function gives an empty text when it worked, else a sentence for the
// person that says what could not be done and why. Where to save is asked by the caller, through Dialogs.
#pragma once

#include <QByteArray>
#include <QImage>
#include <QString>
#include <QStringList>

class QClipboard;
class QGraphicsView;

namespace washfast::ui {

// "SVG picture (*.svg)" and so on, in the order in which they are offered.
[[nodiscard]] QStringList chartFileFilters();

// Writes what the ending of the path asks for.
[[nodiscard]] QString saveChart(QGraphicsView& view, const QString& path, const QString& title = {});
// The same chart as bytes; empty if the view is empty.
[[nodiscard]] QByteArray chartSvg(QGraphicsView& view, const QString& title = {});
[[nodiscard]] QByteArray chartPdf(QGraphicsView& view, const QString& title = {});
[[nodiscard]] QImage chartImage(QGraphicsView& view, double scale = 2.0);

// Puts the chart on the clipboard as a picture (twice the size of the screen's) and as SVG.
[[nodiscard]] QString copyChart(QGraphicsView& view, QClipboard& clipboard, const QString& title = {});

} // namespace washfast::ui
