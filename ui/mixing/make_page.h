// The steps to tick off, with the cautions of this work beside them and a timer for the waiting.
#pragma once

#include "ui/common/desk.h"
#include "ui/mixing/step_list.h"

#include <QTimer>
#include <QWidget>

class QLabel;
class QPushButton;
class QTextBrowser;

namespace washfast::ui::mixing {

class MakePage : public QWidget {
    Q_OBJECT

public:
    MakePage(MixingState& state, Desk& desk, const Theme& theme, QWidget* parent = nullptr);

    void refresh();
    void setTheme(const Theme& theme);
    [[nodiscard]] StepList* steps() const { return steps_; }
    [[nodiscard]] QPushButton* timerButton() const { return start_; }
    [[nodiscard]] QString timerText() const;
    [[nodiscard]] QString cautionText() const;
    /// Looks at the clock; also done twice a second while a timer runs.
    void look();

Q_SIGNALS:
    void say(const QString& sentence);

private:
    void follow();
    void startOrStop();

    MixingState& state_;
    Desk& desk_;
    Theme theme_;
    StepList* steps_ = nullptr;
    QLabel* sum_ = nullptr;
    QLabel* gas_ = nullptr;
    QLabel* time_ = nullptr;
    QPushButton* start_ = nullptr;
    QTextBrowser* cautions_ = nullptr;
    QTimer tick_;
    std::optional<Instant> until_;
};

} // namespace washfast::ui::mixing
