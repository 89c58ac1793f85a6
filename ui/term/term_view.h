// Term: the sessions of a term with what became of their prints, and the way in and out for tables.
#pragma once

#include "ui/common/view.h"
#include "ui/term/term_state.h"

class QComboBox;
class QLabel;
class QStackedWidget;
class QTableWidget;

namespace washfast::ui {

class EmptyState;

class TermView : public View {
    Q_OBJECT

public:
    explicit TermView(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] QString title() const override { return tr("Term"); }
    void arrive() override;
    [[nodiscard]] QTableWidget* table() const { return table_; }
    /// Writes the chosen term; the ending says which kind of file. False when it was not written.
    bool exportTo(const QString& path);

public Q_SLOTS:
    void showAgain();
    void importTable();
    void exportTerm();

private:
    void fillTerms();
    [[nodiscard]] qint64 term() const;
    void openSession(int row);

    QComboBox* terms_ = nullptr;
    QLabel* sum_ = nullptr;
    QTableWidget* table_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    EmptyState* empty_ = nullptr;
    std::vector<SessionSummary> shown_;
};

} // namespace washfast::ui
