// The table of prints: columns chosen from the catalogue, rows filtered and sorted by ourselves over whole columns, so
// that 100,000 prints stay quick. The first column is the tone pair.
#pragma once

#include "core/trial/filter.h"
#include "ui/common/desk.h"

#include <QAbstractTableModel>

namespace washfast::ui {

class PrintTableModel : public QAbstractTableModel {
    Q_OBJECT

public:
    static constexpr int idRole = Qt::UserRole; // qint64
    static constexpr int failedRole = Qt::UserRole + 1; // bool
    static constexpr int toneColumn = 0;

    explicit PrintTableModel(Desk& desk, QObject* parent = nullptr);

    /// Print fields by key, in order; unknown keys are passed over.
    void setColumns(const QStringList& keys);
    [[nodiscard]] QStringList columnKeys() const;
    [[nodiscard]] static QStringList defaultColumns();
    [[nodiscard]] const Field* fieldAt(int column) const; // nullptr for the tone pair

    void setFilter(const Filter& filter);
    [[nodiscard]] qint64 idAt(int row) const;
    [[nodiscard]] int rowOf(qint64 id) const; // -1 when it is not shown
    /// Row of the notebook's print table.
    [[nodiscard]] int printRow(int row) const { return rows_[size_t(row)]; }
    [[nodiscard]] int total() const { return desk_.notebook().prints().rows(); }
    /// Tab-separated text of these rows with headings.
    [[nodiscard]] QString asTable(const QVector<int>& rows) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(
        int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;
    /// What was not recorded comes last, whichever way. The tone column gives the order of the notebook.
    void sort(int column, Qt::SortOrder order = Qt::AscendingOrder) override;
    [[nodiscard]] int sortColumn() const { return sort_column_; } // -1 for the order of the notebook
    [[nodiscard]] Qt::SortOrder sortOrder() const { return sort_order_; }

private:
    void readAgain();
    void follow(const QVector<store::Change>& changes);
    void order(std::vector<int>& rows) const;
    [[nodiscard]] bool comesBefore(const PrintColumn& column, int a, int b) const;
    /// True when these prints, changed, are shown or not as they were, and stand where they stood.
    [[nodiscard]] bool stayInPlace(const QVector<qint64>& prints) const;
    [[nodiscard]] std::vector<int> wanted() const;
    void replaceRows(std::vector<int> rows);

    Desk& desk_;
    std::vector<int> fields_; // print field of each column after the tone pair
    Filter filter_;
    int sort_column_ = -1;
    Qt::SortOrder sort_order_ = Qt::AscendingOrder;
    std::vector<int> rows_; // rows of the print table, as shown
    std::vector<qint64> ids_; // their ids, to follow them over changes
};

} // namespace washfast::ui
