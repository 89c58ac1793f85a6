// The rows of one kind that belong to a print (its density readings, signs, weighings ...) as a small table, with
// adding, changing and removing. The columns are the catalogue's.
#pragma once

#include "ui/common/view.h"

class QLabel;
class QPushButton;
class QTableWidget;

namespace washfast::ui {

class ChildTable : public QWidget {
    Q_OBJECT

public:
    ChildTable(const Services& services, Entity entity, const QString& heading, QWidget* parent = nullptr);

    void setPrint(qint64 print);
    [[nodiscard]] int rows() const;
    [[nodiscard]] QTableWidget* table() const { return table_; }
    void setTheme(const Theme& theme);

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

    Services services_;
    Entity entity_;
    qint64 print_ = 0;
    QLabel* heading_ = nullptr;
    QTableWidget* table_ = nullptr;
    QPushButton* remove_ = nullptr;
    QPushButton* change_ = nullptr;
};

} // namespace washfast::ui
