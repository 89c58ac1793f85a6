// Causes: a batch, a question, and the answer with its evidence.
#pragma once

#include "core/causes/answer.h"
#include "core/causes/next_prints.h"
#include "ui/causes/question.h"
#include "ui/common/view.h"

#include <QFutureWatcher>

class QComboBox;
class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QTableView;
class QTabWidget;
class QVBoxLayout;

namespace washfast::ui {

class AnswerPanel;
class FactorModel;
class NextPage;
class PicturePane;

class CausesView : public View {
    Q_OBJECT

public:
    explicit CausesView(const Services& services, QWidget* parent = nullptr);
    ~CausesView() override;

    [[nodiscard]] QString title() const override { return tr("Causes"); }
    void arrive() override;
    void ask(const Question& question);
    [[nodiscard]] AnswerPanel* panel() const { return panel_; }
    [[nodiscard]] FactorModel* factors() const { return factors_; }
    [[nodiscard]] QTabWidget* pages() const { return pages_; }
    [[nodiscard]] PicturePane* strip() const { return strip_; }
    [[nodiscard]] NextPage* next() const { return next_; }
    [[nodiscard]] const causes::Answer& answer() const { return found_.answer; }
    /// The whole reasoning as .pdf or .json; false when it was not written.
    bool saveTo(const QString& path);
    [[nodiscard]] bool working() const { return watcher_.isRunning(); }

public Q_SLOTS:
    void search();
    /// Leaves a search that takes long; what was found before stays.
    void stop();

Q_SIGNALS:
    void answered();

private:
    /// All that one search brings.
    struct Found {
        causes::FactorTable table;
        causes::Answer answer;
        causes::NextPrints next;
    };

    void buildQuestion(QVBoxLayout& column);
    void buildPages();
    void showFound();
    void finishSearch();
    void showFactor(int row);
    void fillChoices();
    void save();
    [[nodiscard]] Question question() const;

    QComboBox* batch_ = nullptr;
    QLineEdit* filter_ = nullptr;
    QComboBox* outcome_ = nullptr;
    QLineEdit* against_ = nullptr;
    QComboBox* block_ = nullptr;
    AnswerPanel* panel_ = nullptr;
    QTableView* table_ = nullptr;
    FactorModel* factors_ = nullptr;
    QLabel* about_ = nullptr;
    QTabWidget* pages_ = nullptr;
    QComboBox* one_ = nullptr; // the factor of the strip
    PicturePane* strip_ = nullptr;
    PicturePane* effects_ = nullptr;
    PicturePane* together_ = nullptr;
    NextPage* next_ = nullptr;
    QLabel* pointed_ = nullptr;
    QWidget* working_ = nullptr; // shown while a search takes long
    QProgressBar* progress_ = nullptr;
    QFutureWatcher<Found> watcher_;
    QString asked_, answered_; // the question under way, and the one that found_ answers
    Found found_;
    bool again_ = false; // the question has changed while the search ran
    bool stale_ = true;
};

} // namespace washfast::ui
