// Causes: a batch, a question, and the answer with its evidence.
#pragma once

#include "core/causes/answer.h"
#include "ui/causes/question.h"
#include "ui/common/view.h"

#include <QFutureWatcher>

class QComboBox;
class QLabel;
class QLineEdit;
class QTableView;
class QVBoxLayout;

namespace washfast::ui {

class AnswerPanel;
class FactorModel;

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
    [[nodiscard]] bool working() const { return watcher_.isRunning(); }

public Q_SLOTS:
    void search();

Q_SIGNALS:
    void answered();

private:
    void buildQuestion(QVBoxLayout& column);
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
    QFutureWatcher<causes::Answer> watcher_;
    causes::Answer answer_;
    bool again_ = false; // the question has changed while the search ran
    bool stale_ = true;
};

} // namespace washfast::ui
