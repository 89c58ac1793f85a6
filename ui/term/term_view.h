// Term: the sessions of a term with what became of their prints, and the way in and out for tables.
#pragma once

#include "core/exchange/report.h"
#include "ui/common/view.h"
#include "ui/term/term_state.h"

#include <QFutureWatcher>
#include <atomic>
#include <memory>

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
    /// .pdf) is made beside the window: exported() tells.
    bool exportTo(const QString& path);
    [[nodiscard]] bool working() const { return report_.isRunning(); }

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
    void begin(const QString& path);
    void stop();
    void finishReport();
    bool tell(const Result<exchange::ExportDone>& done);

    QComboBox* terms_ = nullptr;
    QLabel* sum_ = nullptr;
    QTableWidget* table_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    EmptyState* empty_ = nullptr;
    std::vector<SessionSummary> shown_;
    QPushButton* export_ = nullptr;
    QWidget* waiting_ = nullptr;
    QProgressBar* progress_ = nullptr;
    QPushButton* stop_ = nullptr;
    std::shared_ptr<std::atomic_bool> stop_wanted_; // of the report that is being made
    QFutureWatcher<std::shared_ptr<Result<exchange::ExportDone>>> report_;
};

} // namespace washfast::ui
