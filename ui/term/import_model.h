// What an import would do, row by row: new, there already, or refused with the reason.
#pragma once

#include "core/exchange/import.h"

#include <QAbstractTableModel>

namespace washfast::ui {

class ImportModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { Line, Code, State, Says, columns };

    using QAbstractTableModel::QAbstractTableModel;

    void setPreview(const exchange::ImportPreview& preview);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(
        int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    struct Row {
        QString line, code, state, says;
    };
    std::vector<Row> rows_;
};

} // namespace washfast::ui
