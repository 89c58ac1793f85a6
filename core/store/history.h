// The append-only history of a notebook, and the stack of steps that undo and redo walk along: both are read from the
// same rows.
#pragma once

#include "core/quantity/entity.h"
#include "core/store/connection.h"

#include <unordered_map>
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
    std::vector<qint64> steps {}; // all that go together with it, a run; in the order in which they are reversed
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
///
/// A run is a row of steps that belong together (numbers entered print after print): each is on disk at once, and undo
/// takes back all of them that follow one another, as one. In the file an edit's `target` is the first step of its run.
class StepStack {
public:
    void follow(qint64 id, std::string_view kind, qint64 target);
    /// The steps that an undo or a redo reverses, in that order; empty for none.
    [[nodiscard]] std::vector<qint64> nextUndo() const { return lastRun(done_); }
    [[nodiscard]] std::vector<qint64> nextRedo() const { return lastRun(undone_); }
    [[nodiscard]] bool isDone(qint64 step) const;
    [[nodiscard]] qint64 last() const { return last_; }
    /// While a run goes on its steps are taken back one by one; 0: none goes on.
    void setOpenRun(qint64 first) { open_run_ = first; }

private:
    [[nodiscard]] qint64 runOf(qint64 step) const;
    [[nodiscard]] std::vector<qint64> lastRun(const std::vector<qint64>& steps) const;

    qint64 last_ = 0, open_run_ = 0;
    std::vector<qint64> done_, undone_;
    std::unordered_map<qint64, qint64> runs_; // the first step, of those that go on with a run
};

} // namespace washfast::store
