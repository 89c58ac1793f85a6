// Steps to tick off with wet hands: tall rows with a running number; Space, Enter or a touch anywhere on the row ticks
// it and goes to the next.
#pragma once

#include "ui/common/theme.h"
#include "ui/mixing/mixing_state.h"

#include <QListWidget>

namespace washfast::ui::mixing {

class StepList : public QListWidget {
    Q_OBJECT

public:
    explicit StepList(const Theme& theme, QWidget* parent = nullptr);

    /// Ticks stay where the text is the same.
    void setSteps(const std::vector<Step>& steps);
    void setTheme(const Theme& theme);
    [[nodiscard]] bool ticked(int row) const;
    [[nodiscard]] int tickedCount() const;
    [[nodiscard]] double waitOf(int row) const; // minutes
    void toggle(int row);

    static constexpr int tickedRole = Qt::UserRole;
    static constexpr int waitRole = Qt::UserRole + 1;
    static constexpr int textRole = Qt::UserRole + 2;

Q_SIGNALS:
    void tickedChanged();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void describe(int row);
};

} // namespace washfast::ui::mixing
