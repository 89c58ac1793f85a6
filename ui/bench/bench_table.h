// The table of the Bench: turns key presses into what the person asks for. Left and Right change the station and leave
// the chosen rows alone, so that many rows can be chosen first and then walked from station to station.
#pragma once

#include <QTableView>

namespace washfast::ui {

class StationDelegate;

class BenchTable : public QTableView {
    Q_OBJECT

public:
    enum class Ask {
        Press, // Space
        Touch, // 1 to 5, with the digit
        Type, // the beginning of a number, at Read
        Form, // Enter, F2
        Page, // Ctrl+Enter
        Remove, // Delete
        NewPrint, // N
        Weigh, // W
        Light, // L
        RowByRow, // R
        Alike, // A
        Leave // Escape
    };
    Q_ENUM(Ask)

    explicit BenchTable(QWidget* parent = nullptr);

    /// Makes this the current cell and its row the only chosen one, whatever keys are held down.
    void goTo(const QModelIndex& index);
    /// Other letters do not jump about.
    void keyboardSearch(const QString&) override { }

Q_SIGNALS:
    void asked(washfast::ui::BenchTable::Ask what, const QString& text);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    /// Shares the width among the stations: those with two numbers get more of it.
    void shareWidth();
    bool moveStation(const QKeyEvent& event);
    bool ask(const QKeyEvent& event);
};

} // namespace washfast::ui
