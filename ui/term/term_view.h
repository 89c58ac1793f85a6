// Term: the sessions of a term with what became of their prints, and the way in and out for tables.
#pragma once

#include "core/exchange/report.h"
#include "ui/common/view.h"
#include "ui/term/term_state.h"

#include <QFutureWatcher>

class QComboBox;
class QLabel;
class QProgressBar;
class QPushButton;
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
    ~TermView() override;
    /// Writes the chosen term; the ending says which kind of file. False when it was not written. A report (.html,
    /// .pdf) is written when the search for causes has been asked: exported() tells.
    bool exportTo(const QString& path);
    [[nodiscard]] bool working() const { return answers_.isRunning(); }

Q_SIGNALS:
    void exported(bool written);

public Q_SLOTS:
    void showAgain();
    void importTable();
    void exportTerm();

private:
    void fillTerms();
    [[nodiscard]] qint64 term() const;
    void openSession(int row);
    bool begin(const QString& path);
    bool write(const QString& path, const exchange::ReportOptions& contents);
    void finishReport();

    QComboBox* terms_ = nullptr;
    QLabel* sum_ = nullptr;
    QTableWidget* table_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    EmptyState* empty_ = nullptr;
    std::vector<SessionSummary> shown_;
    QPushButton* export_ = nullptr;
    QWidget* waiting_ = nullptr;
    QProgressBar* progress_ = nullptr;
    QString report_path_;
    std::optional<QString> report_term_;
    QFutureWatcher<std::vector<exchange::ReportAnswer>> answers_;
};

} // namespace washfast::ui
