// The append-only history of a notebook, and the stack of steps that undo and redo walk along: both are read from the
// same rows.
#pragma once

#include "core/quantity/entity.h"
#include "core/store/connection.h"

#include <vector>

namespace washfast::store {

struct HistoryEntry {
    qint64 id = 0;
    qint64 step = 0; // 0: changed by another program
    QString step_label;
    QString at; // ISO 8601, UTC
    Ref row;
    QString field; // empty: the row was added
    Raw old_value, new_value;
};

struct StepInfo {
    qint64 id = 0;
    QString label;
    QString window; // of which window
};

/// What views are told: which row, which field of it, and which print it is about.
struct Change {
    enum class What { Added, Removed, Set };
    What what = What::Set;
    Ref row;
    QString field; // for Set: value or evidence
    qint64 owner = 0; // the row that it belongs to, 0 for none
};

/// Steps that can be undone, and those that were. Holds numbers only: all steps of a notebook are followed.
class StepStack {
public:
    void follow(qint64 id, std::string_view kind, qint64 target);
    [[nodiscard]] std::optional<qint64> nextUndo() const;
    [[nodiscard]] std::optional<qint64> nextRedo() const;
    [[nodiscard]] qint64 last() const { return last_; }

private:
    qint64 last_ = 0;
    std::vector<qint64> done_, undone_;
};

} // namespace washfast::store
