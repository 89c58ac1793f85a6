// The strip on top of the Bench: which session, the air of its room, and how many sheets are where.
#pragma once

#include "ui/bench/cell_state.h"
#include "ui/common/desk.h"
#include "ui/common/theme.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QPushButton;

namespace washfast::ui {

class FieldEditor;
class SessionList;

class SessionStrip : public QWidget {
    Q_OBJECT

public:
    SessionStrip(Desk& desk, const Theme& theme, QWidget* parent = nullptr);

    void setCounts(const BenchCounts& counts);
    [[nodiscard]] QComboBox* sessions() const { return sessions_; }
    [[nodiscard]] FieldEditor* air(const QString& column) const;
    [[nodiscard]] QString countsShown() const;
    void setTheme(const Theme& theme);

public Q_SLOTS:
    void refresh();

Q_SIGNALS:
    void newSessionWanted();

private:
    Desk& desk_;
    SessionList* list_;
    QComboBox* sessions_;
    QPushButton* fresh_;
    QLabel* counts_;
    std::vector<FieldEditor*> air_;
    QWidget* air_box_;
};

} // namespace washfast::ui
