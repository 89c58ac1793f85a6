// Where the blue went, for one print: from the density that good prints reach down to what was measured, line by line
// as a falling step, with what each line rests on.
#pragma once

#include "core/causes/ledger.h"
#include "ui/common/view.h"

#include <QWidget>

class QLabel;
class QTableWidget;

namespace washfast::ui {

class LedgerPanel : public QWidget {
    Q_OBJECT

public:
    explicit LedgerPanel(const Services& services, QWidget* parent = nullptr);

    /// Works the ledger out; 0 for none.
    void setPrint(qint64 print);
    [[nodiscard]] QTableWidget* table() const { return table_; }
    /// All that is said above and below the table.
    [[nodiscard]] QString words() const;
    void setTheme(const Theme& theme);

Q_SIGNALS:
    void fieldWanted(const QString& key); // the record that a line rests on

private:
    void showLedger(const causes::Ledger& ledger);
    void showNothing(const QString& why);

    Services services_;
    QLabel* title_ = nullptr;
    QTableWidget* table_ = nullptr;
    QLabel* below_ = nullptr;
    std::vector<QStringList> fields_; // of each row of the table
};

} // namespace washfast::ui
