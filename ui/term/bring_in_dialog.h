// Brings another notebook in: works in the background with a way to stop, then tells what came, what got another name,
// and where each of the two says otherwise.
#pragma once

#include "core/store/merge.h"
#include "ui/common/view.h"

#include <QDialog>
#include <QFutureWatcher>
#include <memory>
#include <stop_token>

class QLabel;
class QPlainTextEdit;
class QProgressBar;
class QPushButton;

namespace washfast::ui {

class BringInDialog : public QDialog {
    Q_OBJECT

public:
    explicit BringInDialog(const Services& services, QWidget* parent = nullptr);
    ~BringInDialog() override;

    /// Asks which notebook; false when the person turned back.
    [[nodiscard]] bool choose();
    void begin(const QString& path);
    [[nodiscard]] bool working() const { return watcher_.isRunning(); }
    [[nodiscard]] QString told() const;

public Q_SLOTS:
    void reject() override; // stops the work first

private:
    void finish();
    void refuse(const Error& error);

    using Answer = std::shared_ptr<Result<store::MergeReport>>;
    Services services_;
    QString path_;
    QLabel* heading_ = nullptr;
    QPlainTextEdit* told_ = nullptr;
    QProgressBar* progress_ = nullptr;
    QPushButton* close_ = nullptr;
    std::stop_source stop_; // asked of the work; it says itself how it ended
    QFutureWatcher<Answer> watcher_;
};

} // namespace washfast::ui
