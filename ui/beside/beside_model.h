// Prints as columns, fields as rows; the rows in which the prints differ come first. Nothing here is a widget.
#pragma once

#include "ui/common/desk.h"

#include <QAbstractTableModel>

namespace washfast::ui {

class BesideModel : public QAbstractTableModel {
    Q_OBJECT

public:
    static constexpr int differsRole = Qt::UserRole; // bool, for a row

    explicit BesideModel(Desk& desk, QObject* parent = nullptr);

    void setPrints(const QVector<qint64>& prints);
    [[nodiscard]] const QVector<qint64>& prints() const { return prints_; }
    /// Also the rows in which all are the same, after the others.
    void setShowAll(bool all);
    [[nodiscard]] bool showAll() const { return show_all_; }
    [[nodiscard]] const Field& fieldAt(int row) const;
    [[nodiscard]] bool differs(int row) const { return rows_[size_t(row)].differs; }
    /// Tab-separated text of what is shown, headings first: what a spreadsheet takes.
    [[nodiscard]] QString asTable() const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(
        int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

public Q_SLOTS:
    void readAgain();

private:
    struct Row {
        int field;
        bool differs;
        std::vector<Known> values;
    };

    Desk& desk_;
    QVector<qint64> prints_;
    bool show_all_ = false;
    std::vector<Row> rows_;
};

} // namespace washfast::ui
