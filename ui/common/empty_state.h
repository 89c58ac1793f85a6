// What an empty view shows: what would be here, and the one action that fills it.
#pragma once

#include "ui/common/theme.h"

#include <QWidget>

class QLabel;
class QPushButton;

namespace washfast::ui {

class EmptyState : public QWidget {
    Q_OBJECT

public:
    explicit EmptyState(const Theme& theme, QWidget* parent = nullptr);

    // An empty action text leaves the button out.
    void setContent(const QString& title, const QString& sentence, const QString& action);

    [[nodiscard]] QString title() const;
    [[nodiscard]] QString sentence() const;
    [[nodiscard]] QPushButton* button() const { return button_; }

public Q_SLOTS:
    void setTheme(const washfast::ui::Theme& theme);

Q_SIGNALS:
    void actionTriggered();

private:
    QLabel* title_ = nullptr;
    QLabel* sentence_ = nullptr;
    QPushButton* button_ = nullptr;
};

} // namespace washfast::ui
