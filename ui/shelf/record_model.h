// The shared records of one kind as a table: the columns are the catalogue's.
#pragma once

#include "ui/common/desk.h"

#include <QAbstractTableModel>

namespace washfast::ui {

class RecordModel : public QAbstractTableModel {
    Q_OBJECT

public:
    static constexpr int sortRole = Qt::UserRole; // bare value: number, milliseconds or text; nothing when not recorded
    static constexpr int idRole = Qt::UserRole + 1;

    explicit RecordModel(Desk& desk, QObject* parent = nullptr);

    void setEntity(Entity entity);
    [[nodiscard]] Entity entity() const { return entity_; }
    [[nodiscard]] qint64 idAt(int row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(
        int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    void readAgain();
    [[nodiscard]] QString textOf(const Field& field, const Known& known) const;

    Desk& desk_;
    Entity entity_ = Entity::Mix;
    std::vector<const Field*> shown_;
    std::vector<qint64> ids_;
};

} // namespace washfast::ui
