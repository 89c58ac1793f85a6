// The rows of one kind that belong to a record (a print's readings, a mix's parts, a wedge's steps ...) as a small
// table, with adding, changing and removing. Enter changes the chosen row, Delete takes it away; each is one step that
// undo takes back. The columns are the catalogue's, and rows that are numbered stand in the order of their numbers.
#pragma once

#include "ui/common/view.h"

#include <functional>

class QHBoxLayout;
class QLabel;
class QPushButton;
class QTableWidget;

namespace washfast::ui {

class RecordDialog;

class ChildTable : public QWidget {
    Q_OBJECT

public:
    ChildTable(const Services& services, Entity entity, const QString& heading, QWidget* parent = nullptr);

    void setOwner(qint64 owner);
    [[nodiscard]] Entity entity() const { return entity_; }
    [[nodiscard]] int rows() const;
    [[nodiscard]] QTableWidget* table() const { return table_; }
    [[nodiscard]] QPushButton* addRowButton() const { return add_; }
    void setTheme(const Theme& theme);
    /// Rows that are shown at once; with more the table scrolls. Otherwise it is as high as all of them.
    void setMostRows(int rows);
    /// Another button beside the others, with its text and what it does.
    QPushButton* addButton(const QString& text, const QString& tip, const std::function<void()>& does);
    /// Done in the same step as every change of the rows: what has to agree with them.
    void setAfterwards(std::function<Outcome(store::Writer&)> afterwards) { afterwards_ = std::move(afterwards); }
    /// What a form needs before it is shown: something to choose from, a check of what is typed.
    void setPrepare(std::function<void(RecordDialog&)> prepare) { prepare_ = std::move(prepare); }
    void setChangeable(bool changeable);

public Q_SLOTS:
    void refresh();
    void add();
    void change();
    void remove();

protected:
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    /// The columns in which something stands: thirty empty ones help nobody.
    [[nodiscard]] std::vector<const Field*> shownColumns() const;
    void fill(const std::vector<const Field*>& columns);
    void fitHeight();
    void tellButtons();
    [[nodiscard]] qint64 current() const;
    [[nodiscard]] bool changeable() const { return changeable_ && services_.desk.writable(); }

    Services services_;
    Entity entity_;
    qint64 owner_ = 0;
    int most_rows_ = 0; // 0: all
    bool changeable_ = true;
    std::function<Outcome(store::Writer&)> afterwards_;
    std::function<void(RecordDialog&)> prepare_;
    QHBoxLayout* bar_ = nullptr;
    QLabel* heading_ = nullptr;
    QTableWidget* table_ = nullptr;
    QPushButton* add_ = nullptr;
    QPushButton* remove_ = nullptr;
    QPushButton* change_ = nullptr;
};

/// Rows of the notebook's table of this kind that belong to the owner, in the order of their numbers where they have
/// any.
[[nodiscard]] std::vector<int> childrenInOrder(const Notebook& notebook, Entity entity, qint64 owner);
/// The column by which rows of this kind are numbered (bath_position, step_number); nullptr when they are not.
[[nodiscard]] const Field* numberColumn(const Catalogue& catalogue, Entity entity);

} // namespace washfast::ui
