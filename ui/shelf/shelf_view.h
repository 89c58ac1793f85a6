// Shelf: what prints are made with and where: mixes, papers, covers, negatives, lamps, reference cards, chemicals,
// formulas, sites, terms, sessions. All can be made and changed here with the rows that belong to them, and put away
// while nothing uses them; nothing is deleted.
#pragma once

#include "ui/common/view.h"

class QLabel;
class QListWidget;
class QPushButton;
class QStackedWidget;
class QTableView;
class QVBoxLayout;

namespace washfast::ui {

class AgePlot;
class ChildRows;
class EmptyState;
class RecordDialog;
class RecordModel;
class RecordOrder;

class ShelfView : public View {
    Q_OBJECT

public:
    explicit ShelfView(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] QString title() const override { return tr("Shelf"); }
    void arrive() override;
    void choose(Entity entity);
    [[nodiscard]] QTableView* table() const { return table_; }
    [[nodiscard]] RecordModel* model() const { return model_; }
    [[nodiscard]] ChildRows* rows() const { return rows_; }
    void choose(Ref record);

public Q_SLOTS:
    void make();
    void change();
    void putAway();
    void retire();
    /// A label for the chosen bottle, as PDF; the bottle counts as labelled from then on.
    void label();
    /// A formula of one's own that begins as a published one.
    void copyFormula();

private:
    void buildTable();
    void buildFacts(QVBoxLayout& column);
    void prepare(RecordDialog& dialog, qint64 id);
    void tellFacts();
    void buildButtons(QVBoxLayout& column);
    void showKind(int at);
    void follow();
    void select(qint64 id);
    [[nodiscard]] qint64 current() const;
    /// "3 prints", "1 exposure": what points at a record.
    [[nodiscard]] QStringList usesOf(Ref record) const;
    [[nodiscard]] static QString counted(Entity entity, int n);

    QListWidget* kinds_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    EmptyState* empty_ = nullptr;
    QTableView* table_ = nullptr;
    RecordModel* model_ = nullptr;
    RecordOrder* sorted_ = nullptr;
    QPushButton* change_ = nullptr;
    QPushButton* put_away_ = nullptr;
    QPushButton* retire_ = nullptr;
    QPushButton* label_ = nullptr;
    QPushButton* copy_ = nullptr;
    ChildRows* rows_ = nullptr;
    QLabel* facts_ = nullptr;
    AgePlot* trend_ = nullptr;
    qint64 place_ = 0; // the record that was chosen before the rows were read again
};

} // namespace washfast::ui
