// Entering row by row: which prints have their turn and what each of them lacks. A sheet that is not rinsed yet lacks
// the tone before the rinse, a rinsed one that of the day after, one that dries a mass. What is there is passed over,
// and is never replaced without asking. No widget.
#pragma once

#include "core/trial/day_after.h"
#include "ui/bench/entry.h"

namespace washfast::ui {

/// What is looked for: tones only, masses only, or whatever the sheet's stage needs.
enum class LackOf { Anything, Tones, Masses };

struct EntryTurn {
    qint64 print = 0;
    QString entry_id;
    bool missing = false; // false: it is there, and the person is asked before it is replaced
    /// The tone a day after, before its day has come: from when it is due.
    std::optional<Instant> early {};
};

struct EntryRun {
    std::vector<EntryTurn> turns;
    int complete = 0; // prints that lack nothing and have no turn
    [[nodiscard]] bool mixed() const; // not the same for all
};

/// What this print's turn would be: what it lacks, else what belongs to its stage.
[[nodiscard]] EntryTurn turnOf(const Desk& desk, qint64 print, const SheetStates& states, LackOf lack);

struct RunWanted {
    QVector<qint64> prints; // in the order of the table
    LackOf lack = LackOf::Anything;
    /// The prints from a row to the end, not chosen one by one: when the first waits for its second tone, rinsed prints
    /// whose first tone was not read either have no turn.
    bool to_the_end = false;
    bool first_stays = false; // a number was typed on the first row already
};
/// When no print lacks anything, all of them have a turn.
[[nodiscard]] EntryRun runOf(
    const Desk& desk, const RunWanted& wanted, const std::function<const SheetStates&(qint64)>& states);

/// A value that was entered.
struct EnteredOne {
    qint64 print = 0;
    const Entry* entry = nullptr;
};
/// What undo takes back: "10 readings, a day after"; "6 readings, a day after; 4 readings, before the rinse". `code` is
/// that of the print when there is one only.
[[nodiscard]] QString runLabel(const Catalogue& catalogue, const std::vector<EnteredOne>& entered, const QString& code);

/// A value that is there, and the one that was typed.
struct Replacing {
    QString print, field, old_value, new_value; // as they are shown, with units
    QStringList others; // further prints of the run that have a value, with it: "B02 1.02"
};
/// The question whether to replace it.
[[nodiscard]] QString replaceQuestion(const Replacing& replacing);

} // namespace washfast::ui
