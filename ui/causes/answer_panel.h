// The answer on top: the verdict as a sign and a word, why in plain sentences, the prints to look at, and the warnings.
#pragma once

#include "core/causes/answer.h"
#include "ui/common/theme.h"

#include <QFrame>

class QLabel;

namespace washfast::ui {

class AnswerPanel : public QFrame {
    Q_OBJECT

public:
    explicit AnswerPanel(const Theme& theme, QWidget* parent = nullptr);

    void setAnswer(const causes::Answer& answer);
    void setSentence(const QString& heading, const QString& sentence); // instead of an answer
    /// How the answer changed with new prints; shown under it until the next answer.
    void setChanged(const QString& sentence);
    void setTheme(const Theme& theme);
    [[nodiscard]] QString heading() const;
    [[nodiscard]] QString sentences() const;

Q_SIGNALS:
    void printWanted(const QString& code);

private:
    void show();

    Theme theme_;
    std::optional<causes::Answer> answer_;
    QLabel* heading_ = nullptr;
    QLabel* why_ = nullptr;
    QLabel* changed_ = nullptr;
    QLabel* prints_ = nullptr;
    QLabel* more_ = nullptr; // for and against, what is published, what the rival would have shown
    QLabel* warnings_ = nullptr;
};

/// Evidence for and against, what is published about it, and what the rival would have shown: a sentence each.
[[nodiscard]] QStringList reasonsOf(const causes::Answer& answer);

} // namespace washfast::ui
