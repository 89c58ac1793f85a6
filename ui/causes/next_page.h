// The next prints to make, as a table with what each will tell, and the key that sends them to the Bench as prepared
// rows of the running session.
#pragma once

#include "core/causes/next_prints.h"
#include "ui/common/view.h"

#include <QWidget>

class QLabel;
class QPushButton;
class QTableWidget;

namespace washfast::ui {

class NextPage : public QWidget {
    Q_OBJECT

public:
    explicit NextPage(const Services& services, QWidget* parent = nullptr);

    void setPlan(const causes::NextPrints& plan);
    [[nodiscard]] QTableWidget* table() const { return table_; }
    [[nodiscard]] QPushButton* sendButton() const { return send_; }
    [[nodiscard]] QString sentence() const;

public Q_SLOTS:
    /// Adds the prints to the running session in one step; gives their number.
    int send();

Q_SIGNALS:
    void say(const QString& sentence);
    void sent();

private:
    Services services_;
    causes::NextPrints plan_;
    QLabel* about_ = nullptr;
    QTableWidget* table_ = nullptr;
    QLabel* warnings_ = nullptr;
    QPushButton* send_ = nullptr;
};

/// What a planned print is called in the notes of the prepared row: its settings and what it will tell.
[[nodiscard]] QString planNote(const causes::PlannedPrint& print);

} // namespace washfast::ui
