// Paints the cells of the Bench. A sheet that is under way is a filled pill in the colour that it has there (coated
// yellow-green, printed-out grey, washed blue) with a wedge and a running clock; one that is done is a tick and a
// quiet number; one that waits is a ring. Shape, word and colour say the same, so that none of them is needed alone.
// A pill at Expose fills from the left as the dose goes toward the one that is wanted.
#pragma once

#include "ui/bench/cell_state.h"
#include "ui/common/theme.h"

#include <QStyledItemDelegate>

class QPainter;

namespace washfast::ui {

struct CellPaint {
    Station station = Station::Coat;
    CellState state;
    QString first; // the clock, the word
    QStringList second; // the figure, from the longest way to say it to the shortest
};

/// Paints one station cell into `area`, in the painter's font. Works at any scale, on screen and into a picture.
void paintStationCell(QPainter& painter, const QRectF& area, const CellPaint& cell, const Theme& theme);
/// Fill of a sheet that is at this station.
[[nodiscard]] QColor stationFill(Station station, const Theme& theme);
/// The same as a mark that has to be seen on the sheet (3 : 1).
[[nodiscard]] QColor stationMark(Station station, const Theme& theme);

class StationDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    StationDelegate(const Catalogue& catalogue, const Theme& theme, QObject* parent = nullptr);

    void setTheme(const Theme& theme) { theme_ = theme; }
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

private:
    void paintSheet(QPainter& painter, const QStyleOptionViewItem& option, const QModelIndex& index) const;

    const Catalogue& catalogue_;
    Theme theme_;
};

} // namespace washfast::ui
