// Walking back and forth along the steps that the history keeps.
#include "core/store/notebook_file.h"
#include "core/store/rows.h"
#include "core/store/words.h"

#include <algorithm>

namespace washfast::store {

Outcome NotebookFile::followSteps()
{
    auto statement = connection_->prepare("SELECT id, kind, coalesce(target, 0) FROM step WHERE id > ? ORDER BY id");
    if (!statement)
        return statement.error();
    statement->bind(0, stack_.last());
    return eachRow(std::move(statement),
        [&](const Statement& row) { stack_.follow(row.integer(0), row.bytes(1), row.integer(2)); });
}

Result<std::optional<StepInfo>> NotebookFile::stepInfo(const std::vector<qint64>& steps)
{
    if (steps.empty())
        return std::optional<StepInfo> {};
    const qint64 latest = *std::max_element(steps.begin(), steps.end()); // its label tells of the whole run
    auto statement = connection_->prepare("SELECT label, window FROM step WHERE id = ?");
    if (!statement)
        return statement.error();
    const auto row = statement->bind(0, latest).step();
    if (!row)
        return row.error();
    return std::optional(StepInfo { latest, statement->text(0), statement->text(1), steps });
}

Result<std::optional<StepInfo>> NotebookFile::nextUndo()
{
    if (auto done = followSteps(); !done)
        return done.error();
    return stepInfo(stack_.nextUndo());
}

Result<std::optional<StepInfo>> NotebookFile::nextRedo()
{
    if (auto done = followSteps(); !done)
        return done.error();
    return stepInfo(stack_.nextRedo());
}

Result<bool> NotebookFile::isDone(qint64 step)
{
    if (auto done = followSteps(); !done)
        return done.error();
    return stack_.isDone(step);
}

Result<std::vector<HistoryEntry>> NotebookFile::entriesOf(qint64 step)
{
    auto statement
        = connection_->prepare("SELECT entity, row, field, old, new FROM history WHERE step = ? ORDER BY id");
    if (!statement)
        return statement.error();
    statement->bind(0, step);
    std::vector<HistoryEntry> entries;
    auto done = eachRow(std::move(statement), [&](const Statement& row) {
        HistoryEntry entry;
        entry.row = { entityFromKey(row.text(0)).value_or(Entity::Print), row.integer(1) };
        entry.field = row.text(2);
        entry.old_value = row.raw(3);
        entry.new_value = row.raw(4);
        entries.push_back(entry);
    });
    if (!done)
        return done.error();
    return entries;
}

Outcome NotebookFile::reverse(const std::vector<qint64>& steps, bool forward, const QString& label)
{
    // Each step is reversed by one of its own, all of them together or none.
    std::vector<StepWork> work;
    for (const auto step : steps) {
        auto entries = entriesOf(step);
        if (!entries)
            return entries.error();
        if (!forward)
            std::reverse(entries->begin(), entries->end());
        work.push_back(
            { step, [forward, entries = std::move(*entries)](Writer& writer) -> Outcome {
                 for (const auto& entry : entries) {
                     const bool added = entry.field.isEmpty();
                     const QString field = added ? QStringLiteral("removed") : entry.field;
                     // A row that was added in the step is hidden by undo and shown again by redo.
                     const Raw before = added ? Raw(qint64(1)) : entry.old_value;
                     const Raw after = added ? Raw(qint64(0)) : entry.new_value;
                     if (auto set = writer.setRaw(entry.row, field, forward ? after : before, forward ? before : after);
                         !set)
                         return set;
                 }
                 return Done {};
             } });
    }
    const auto done = step(forward ? "redo" : "undo", label, work);
    return done ? Outcome(Done {}) : Outcome(done.error());
}

Outcome NotebookFile::undo()
{
    const auto next = nextUndo();
    if (!next)
        return next.error();
    if (!*next)
        return Error { Trouble::NotFound, Words::tr("There is nothing to undo."), {} };
    return reverse((*next)->steps, false, Words::tr("Undo: %1").arg((*next)->label));
}

Outcome NotebookFile::redo()
{
    const auto next = nextRedo();
    if (!next)
        return next.error();
    if (!*next)
        return Error { Trouble::NotFound, Words::tr("There is nothing to redo."), {} };
    return reverse((*next)->steps, true, Words::tr("Redo: %1").arg((*next)->label));
}

} // namespace washfast::store
