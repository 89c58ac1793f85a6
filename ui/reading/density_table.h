// The table on the Reading desk: every measured place with its densities, and how far the references are off the fit.
#pragma once

#include "core/trial/notebook.h"
#include "ui/reading/marked_photo.h"

#include <QTableWidget>

namespace washfast::ui {

class DensityTable : public QTableWidget {
    Q_OBJECT

public:
    enum Column { Name, OfPrint, Red, Green, Blue, Visual, LabColour, Clipped, OffTheFit, columns };

    explicit DensityTable(QWidget* parent = nullptr);

    /// `only`: the print that regions belong to when nothing is outlined.
    void fill(const MarkedPhoto* photo, const Notebook& notebook, qint64 only);
    /// Row of the first place of a region or of a row of places; -1 for none.
    [[nodiscard]] int rowOf(Spot::Kind kind, size_t of) const;
    [[nodiscard]] const Spot* spotAt(int row) const;

private:
    void put(int row, const QStringList& cells);

    std::vector<Spot> spots_;
};

} // namespace washfast::ui
