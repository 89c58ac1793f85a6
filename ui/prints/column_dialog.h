// Chooses the columns of the table of prints: a search, a list grouped by station with boxes to tick, and the chosen
// ones in order.
#pragma once

#include "core/quantity/catalogue.h"

#include <QDialog>

class QLineEdit;
class QListWidget;

namespace washfast::ui {

class ColumnDialog : public QDialog {
    Q_OBJECT

public:
    ColumnDialog(
        const Catalogue& catalogue, const QStringList& chosen, const QStringList& defaults, QWidget* parent = nullptr);

    [[nodiscard]] QStringList chosen() const;

private:
    void fill(const QStringList& chosen);
    void search(const QString& text);
    void move(int by);
    void take();

    const Catalogue& catalogue_;
    QLineEdit* search_ = nullptr;
    QListWidget* all_ = nullptr;
    QListWidget* order_ = nullptr;
    bool filling_ = false;
};

} // namespace washfast::ui
