// The shared records of one kind as a table: the name, what the shelf works out (age, what is left, warnings), then the
// other columns of the catalogue. Retired records are left out unless they are asked for.
#pragma once

#include "ui/shelf/record_facts.h"

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
    void setShowRetired(bool show);
    [[nodiscard]] RecordFacts& facts() { return facts_; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(
        int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    void readAgain();
    [[nodiscard]] QString textOf(const Field& field, const Known& known) const;

    /// The fact in a column; nothing for a column of the catalogue.
    [[nodiscard]] std::optional<RecordFacts::Fact> factAt(int column) const;
    [[nodiscard]] const Field& fieldAt(int column) const;

    Desk& desk_;
    mutable RecordFacts facts_;
    std::vector<RecordFacts::Fact> shown_facts_; // they stand behind the first column
    bool show_retired_ = false;
    Entity entity_ = Entity::Mix;
    std::vector<const Field*> shown_;
    std::vector<qint64> ids_;
};

} // namespace washfast::ui
