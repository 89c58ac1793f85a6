// The strip in which one number a print is typed in, print after print: thirty sheets on the balance, thirty densities,
// a light reading for all that are exposed. Enter takes it and goes on; an empty line leaves the print as it is; the
// arrows go up and down; Escape goes back to the table, and what was entered stays. Every number is on disk at once.
// While the run goes on Ctrl+Z takes back the last one; afterwards the whole run is one undo. A value that is there is
// only replaced when the person says so, which is asked once in a run.
#pragma once

#include "ui/bench/bench_model.h"
#include "ui/bench/entry_run.h"
#include "ui/common/dialogs.h"
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
    /// All three must live longer.
    EntryStrip(Desk& desk, Dialogs& dialogs, const BenchModel& model, const Theme& theme, QWidget* parent = nullptr);
    ~EntryStrip() override;

    /// Begins with the first print that lacks something; `typed` is the beginning of the number, if it was begun
    /// already.
    void begin(const RunWanted& wanted, const QString& typed = {});
    /// A light reading for all that are exposed.
    void beginLight();
    /// The print whose turn it is; 0 for all that are exposed.
    [[nodiscard]] qint64 print() const;
    [[nodiscard]] QString entryId() const;
    [[nodiscard]] QString complaint() const;
    /// What the quiet line below says of this turn.
    [[nodiscard]] QString hint() const;
    [[nodiscard]] QLineEdit* line() const { return line_; }
    [[nodiscard]] QComboBox* what() const { return what_; }
    void setTheme(const Theme& theme);

Q_SIGNALS:
    void turned(qint64 print); // it is this print's turn
    void closed();
    void say(const QString& sentence);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    struct Written {
        qint64 step = 0;
        qint64 print = 0;
        const Entry* entry = nullptr;
        QString label; // of this one alone
    };
    enum class Answer { NotAsked, Keep, Replace };

    void build();
    void listen();
    void open(const QString& typed);
    /// Of the first thing that is offered: what each row lacks.
    [[nodiscard]] static QString missingId();
    [[nodiscard]] const Entry* find(const QString& id) const;
    [[nodiscard]] const Entry& entry() const;
    [[nodiscard]] ReadHow readHow() const;
    [[nodiscard]] QVector<qint64> concerned() const;
    void changeWhat();
    void take();
    void takeLight(const Known& value);
    void takeOne(const Known& value, bool nothing_to_read);
    [[nodiscard]] bool mayReplace(const Held& held, const Known& value);
    [[nodiscard]] QStringList othersWithValue() const;
    [[nodiscard]] std::vector<Written> standing() const; // what was entered in this run and not undone
    [[nodiscard]] bool isOwn(qint64 print, const Entry& entry) const;
    void go(int steps);
    void showTurn();
    void showHint();
    void complain(const QString& sentence, bool wrong);
    void finish();
    void endRun();

    Desk& desk_;
    Dialogs& dialogs_;
    const BenchModel& model_;
    Theme theme_;
    std::vector<Entry> entries_;
    RunWanted wanted_;
    std::vector<EntryTurn> turns_;
    int complete_ = 0;
    int at_ = 0;
    qint64 run_ = 0; // the first step of the run
    std::vector<Written> written_;
    Answer answer_ = Answer::NotAsked;
    int kept_ = 0; // values that stayed although another one was typed
    bool light_taken_ = false;
    QComboBox* what_;
    QComboBox* method_;
    QComboBox* channel_;
    QLabel* whom_;
    QLineEdit* line_;
    QLabel* unit_;
    QLabel* so_far_;
    QLabel* under_;
    QLabel* hint_;
    QToolButton* close_;
};

} // namespace washfast::ui
