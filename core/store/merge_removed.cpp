// Rows that one side has removed.
#include "core/store/merge_rows.h"
#include "core/store/rows.h"
#include "core/store/words.h"

#include <algorithm>

namespace washfast::store {

namespace {

const QString removedColumn = QStringLiteral("removed");

} // namespace

/// Whether the other side did not have this row when the merge began, and did not remove it.
Result<bool> RowMerger::isOwn(Connection& other, Ref row, const QString& uuid)
{
    const bool of_theirs = &other == &ours_;
    if (of_theirs && brought_.contains(row))
        return true;
    const auto known = find(other, row.entity, uuid);
    if (!known)
        return known.error();
    if (*known == 0)
        return true;
    const Ref there(row.entity, *known);
    if (of_theirs && restored_.contains(there))
        return true;
    const auto held = mustRead(other, row.entity, *known);
    if (!held)
        return held.error();
    return held->removed && !(of_theirs ? our_side_ : their_side_).removed(there); // its coming was undone
}

Result<bool> RowMerger::touched(Connection& side, const MergeSide& by, Connection& other, Ref row)
{
    const auto changed = [&](Ref ref) {
        const auto found = by.news.find(ref);
        return found != by.news.end() && (!found->second.columns.isEmpty() || found->second.restored);
    };
    if (changed(row))
        return true;
    for (const auto entity : allEntities()) {
        const auto owner = ownerOf(entity);
        const auto& of = table(entity);
        for (size_t i = 0; i < of.targets.size(); ++i) {
            if (of.targets[i] != row.entity)
                continue;
            const auto& column = of.columns[qsizetype(i)];
            auto statement = side.prepare(
                "SELECT id, uuid FROM " + of.name + " WHERE " + column.toStdString() + " = ? AND removed = 0");
            if (!statement)
                return statement.error();
            statement->bind(0, row.id);
            for (;;) {
                const auto found = statement->step();
                if (!found)
                    return found.error();
                if (!*found)
                    break;
                const Ref child(entity, statement->integer(0));
                const bool belongs = owner && owner->column == column;
                if (belongs ? changed(child) : by.hasNews(child, column))
                    return true;
                const auto own = isOwn(other, child, statement->text(1));
                if (!own || *own)
                    return own; // it belongs to it or points at it
            }
        }
    }
    return false;
}

Result<bool> RowMerger::ownerRemovedThere(Entity entity, const MergeRow& their_row)
{
    const auto owner = ownerOf(entity);
    const int at = owner ? table(entity).at(owner->column) : -1;
    const auto* id = at < 0 ? nullptr : std::get_if<qint64>(&their_row.values[size_t(at)]);
    if (!id)
        return false;
    const auto row = read(theirs_, owner->entity, *id);
    if (!row)
        return row.error();
    return *row && (*row)->removed;
}

Outcome RowMerger::tellKept(Entity entity, const MergeRow& our_row, bool removed_here)
{
    MergeDifference difference;
    difference.row = Ref(entity, our_row.id);
    difference.column = removedColumn;
    difference.label = Words::tr("removed");
    const auto record = nameOf(ours_, difference.row, &difference.print);
    if (!record)
        return record.error();
    difference.record = *record;
    difference.ours = removed_here;
    difference.theirs = !removed_here;
    difference.ours_text = removed_here ? Words::tr("yes") : Words::tr("no");
    difference.theirs_text = removed_here ? Words::tr("no") : Words::tr("yes");
    report_.differences.push_back(std::move(difference));
    if (!removed_here)
        note_.unsettled.emplace(our_row.uuid, removedColumn);
    return Done {};
}

/// What was changed there before it was removed.
Outcome RowMerger::takeKept(Entity entity, const MergeRow& our_row, const MergeRow& their_row)
{
    if (table(entity).naming >= 0)
        if (auto done = takeName(entity, our_row, their_row); !done)
            return done;
    return takeFields(entity, our_row, their_row);
}

Outcome RowMerger::removeHere(Entity entity, const MergeRow& our_row, const MergeRow& their_row)
{
    if (!their_side_.removed({ entity, their_row.id }))
        return Done {}; // it was so before they parted, and has been brought back here
    const auto with_owner = ownerRemovedThere(entity, their_row);
    if (!with_owner)
        return with_owner.error();
    if (*with_owner)
        return takeKept(entity, our_row, their_row); // what it belongs to is still here, so that it stays too
    const Ref row(entity, our_row.id);
    const auto keep = touched(ours_, our_side_, theirs_, row);
    if (!keep)
        return keep.error();
    if (*keep) {
        if (auto done = tellKept(entity, our_row, false); !done)
            return done;
        return takeKept(entity, our_row, their_row);
    }
    for (const auto child : allEntities())
        if (const auto owner = ownerOf(child); owner && owner->entity == entity) {
            const auto ids = writer_.children(child, row.id);
            if (!ids)
                return ids.error();
            report_.removed[size_t(child)] += int(ids->size());
        }
    ++report_.removed[size_t(entity)];
    return writer_.remove(row);
}

Outcome RowMerger::restoreHere(Entity entity, const MergeRow& our_row, const MergeRow& their_row)
{
    const Ref ours(entity, our_row.id);
    if (!our_side_.removed(ours)) // it came once and that was undone, or it has been brought back there
        return showAgain(entity, our_row, their_row, true);
    const auto keep = touched(theirs_, their_side_, ours_, { entity, their_row.id });
    if (!keep)
        return keep.error();
    if (!*keep)
        return Done {};
    if (auto done = showAgain(entity, our_row, their_row, false); !done)
        return done;
    return tellKept(entity, our_row, true);
}

Outcome RowMerger::showAgain(Entity entity, const MergeRow& our_row, const MergeRow& their_row, bool as_theirs)
{
    const auto& of = table(entity);
    const Ref ours(entity, our_row.id);
    if (of.naming >= 0) {
        const auto at = size_t(of.naming);
        const auto& column = of.columns[of.naming];
        const bool by_us = our_side_.hasNews(ours, column);
        const bool by_them = their_side_.hasNews({ entity, their_row.id }, column);
        const bool take = as_theirs || (by_them && !by_us);
        if (!take && by_us == by_them && our_row.values[at] != their_row.values[at])
            if (auto done = differ(entity, our_row, their_row, column); !done)
                return done;
        auto wanted = take ? their_row.values[at] : our_row.values[at];
        if (const auto* text = std::get_if<std::string>(&wanted)) {
            const auto name = QString::fromStdString(*text);
            const auto free = freeName(entity, name, our_row.id);
            if (!free)
                return free.error();
            if (*free != name) {
                note_.renamed.insert(our_row.uuid, name);
                report_.renamed.push_back({ entity, name, *free });
            }
            wanted = free->toStdString();
        }
        if (wanted != our_row.values[at])
            if (auto done = writer_.setRaw(ours, column, wanted, our_row.values[at]); !done)
                return done;
    }
    if (auto done = writer_.setRaw(ours, removedColumn, qint64(0), qint64(1)); !done)
        return done;
    ++report_.added[size_t(entity)];
    if (as_theirs)
        restored_.insert(ours);
    // What belongs to it comes back with it.
    for (const auto child : allEntities()) {
        const auto owner = ownerOf(child);
        if (!owner || owner->entity != entity)
            continue;
        auto statement = theirs_.prepare("SELECT id FROM " + table(child).name + " WHERE " + owner->column.toStdString()
            + " = ? AND removed = 0 ORDER BY id");
        if (!statement)
            return statement.error();
        statement->bind(0, their_row.id);
        auto all = eachRow(std::move(statement), [&](const Statement& found) -> Outcome {
            const auto theirs = mustRead(theirs_, child, found.integer(0));
            if (!theirs)
                return theirs.error();
            const auto our_id = find(ours_, child, theirs->uuid);
            if (!our_id)
                return our_id.error();
            if (*our_id == 0)
                return Done {};
            const auto held = mustRead(ours_, child, *our_id);
            if (!held)
                return held.error();
            return held->removed ? showAgain(child, *held, *theirs, as_theirs) : Outcome(Done {});
        });
        if (!all)
            return all;
    }
    return Done {};
}

} // namespace washfast::store
