// The records of the shelf in the order of one column: numbers and times by size, names as a person expects them (M2
// before M10), and what was not recorded last, whichever way.
#pragma once

#include <QSortFilterProxyModel>

namespace washfast::ui {

class RecordOrder : public QSortFilterProxyModel {
    Q_OBJECT

public:
    /// Its source must be a RecordModel.
    explicit RecordOrder(QObject* parent = nullptr);

protected:
    [[nodiscard]] bool lessThan(const QModelIndex& left, const QModelIndex& right) const override;
};

} // namespace washfast::ui
