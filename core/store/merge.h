// Brings what another notebook has into this one. Every row has a UUID: rows that are not here are added with all that
// they point at; of rows that both have, a field that was changed on one side only since the two parted is taken from
// that side; where both changed it this notebook's value stays, and the difference is told. A row that was removed on
// one side goes here too, unless the other side has touched it since. Names that are taken get a number behind them.
//
//     const auto report = merge(file, other_path);
//
// It is one step: all of it or nothing, and one undo takes it back. The other notebook is only read.
#pragma once

#include "core/store/notebook_file.h"

#include <array>
#include <functional>

namespace washfast::store {

/// Something that each side says otherwise; this notebook's stands.
struct MergeDifference {
    Ref row; // here
    QString record; // "bath of P7", "mix M3"
    QString print; // code, when the row is a print or belongs to one
    QString column, label; // label for people, with the unit; "removed" for a row that only one side removed
    Value ours, theirs; // a link is given by the name of what it points at
    QString ours_text, theirs_text; // ISO forms; empty for not recorded
    [[nodiscard]] QString sentence() const;
};

struct MergeRenamed {
    Entity entity = Entity::Print;
    QString from, to;
};

struct MergeReport {
    std::array<int, entityCount> added {}, removed {};
    int changed = 0; // fields
    std::vector<MergeRenamed> renamed;
    std::vector<MergeDifference> differences;
    QString copy; // of the notebook as it was before; empty when nothing was written
    qint64 step = 0; // 0: nothing was written

    [[nodiscard]] int addedInAll() const;
    [[nodiscard]] int removedInAll() const;
    /// What there is to tell but for the counts of rows, a sentence each.
    [[nodiscard]] QStringList notes() const;
};

struct MergeOptions {
    /// Told the share that is done, 0 .. 1; false stops, and nothing is written.
    std::function<bool(double)> keep_going {};
    /// Ends the look through both files that comes first.
    std::stop_token stop {};
};

/// Error BadInput when the other is this notebook, also by another name of it; neither is opened.
[[nodiscard]] std::optional<Error> isItself(const QString& notebook, const QString& other);

/// Errors: BadInput (the other is this notebook), NotFound, NotANotebook, Damaged, TooNew, ReadOnly, NoSpace, Busy.
[[nodiscard]] Result<MergeReport> merge(NotebookFile& file, const QString& other, const MergeOptions& options = {});

} // namespace washfast::store
