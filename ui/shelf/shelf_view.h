// Shelf: what prints are made with and where: mixes, papers, covers, negatives, chemicals, formulas, sites, terms, sessions. All can
// be made, changed and put away from here; nothing is deleted.
#pragma once

#include "ui/common/view.h"

class QListWidget;
class QSortFilterProxyModel;
class QTableView;

namespace washfast::ui {

class RecordModel;

class ShelfView : public View {
    Q_OBJECT

public:
    explicit ShelfView(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] QString title() const override { return tr("Shelf"); }
    void arrive() override;
    void choose(Entity entity);

private:
    void make();
    void change();
    void putAway();
    [[nodiscard]] qint64 current() const;
    [[nodiscard]] int printsWith(Ref record) const;

    QListWidget* kinds_ = nullptr;
    QTableView* table_ = nullptr;
    RecordModel* model_ = nullptr;
    QSortFilterProxyModel* sorted_ = nullptr;
};

} // namespace washfast::ui
