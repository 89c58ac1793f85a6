// The strip in which one number a print is typed in, print after print: thirty sheets on the balance, thirty densities,
// a light reading for all that are exposed. Enter takes it and goes on; an empty line leaves the print as it is; the
// arrows go up and down; Escape goes back to the table. Every number is a step of its own, so that it can be undone.
#pragma once

#include "ui/bench/bench_model.h"
#include "ui/bench/entry.h"
#include "ui/common/theme.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QLineEdit;
class QToolButton;

namespace washfast::ui {

class EntryStrip : public QWidget {
    Q_OBJECT

public:
    /// Both must live longer.
    EntryStrip(Desk& desk, const BenchModel& model, const Theme& theme, QWidget* parent = nullptr);

    /// Begins with the first of `prints`; `typed` is the beginning of the number, if it was begun already.
    void begin(const QString& entry_id, const QVector<qint64>& prints, const QString& typed = {});
    /// The print whose turn it is; 0 for all that are exposed.
    [[nodiscard]] qint64 print() const;
    [[nodiscard]] QString entryId() const;
    [[nodiscard]] QString complaint() const;
    [[nodiscard]] QLineEdit* line() const { return line_; }
    [[nodiscard]] QComboBox* what() const { return what_; }
    void setTheme(const Theme& theme);

Q_SIGNALS:
    void turned(qint64 print); // it is this print's turn
    void closed();
    void say(const QString& sentence);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    [[nodiscard]] const Entry& entry() const;
    [[nodiscard]] QVector<qint64> concerned() const;
    void take();
    void go(int steps);
    void showTurn();
    void complain(const QString& sentence, bool wrong);
    void finish();

    Desk& desk_;
    const BenchModel& model_;
    Theme theme_;
    std::vector<Entry> entries_;
    QVector<qint64> prints_;
    int at_ = 0;
    int taken_ = 0;
    QComboBox* what_;
    QComboBox* method_;
    QComboBox* channel_;
    QLabel* whom_;
    QLineEdit* line_;
    QLabel* unit_;
    QLabel* so_far_;
    QLabel* under_;
    QToolButton* close_;
};

} // namespace washfast::ui
