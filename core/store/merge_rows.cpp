// Reading rows of both files, and adding those that are not here with all that they point at.
#include "core/store/merge_rows.h"
#include "core/store/rows.h"
#include "core/store/words.h"

#include <algorithm>

namespace washfast::store {

namespace {

/// Names of columns go into statements as they are: another program may have made columns with any name.
bool isPlainName(const QString& name)
{
    return std::all_of(name.begin(), name.end(),
        [](QChar c) { return c == QLatin1Char('_') || (c.unicode() < 128 && c.isLetterOrNumber()); });
}

} // namespace

RowMerger::RowMerger(Connection& ours, Connection& theirs, Writer& writer, MergeSide our_side, MergeSide their_side)
    : ours_(ours)
    , theirs_(theirs)
    , writer_(writer)
    , our_side_(std::move(our_side))
    , their_side_(std::move(their_side))
{
}

Outcome RowMerger::readTables()
{
    for (const auto entity : allEntities()) {
        auto& table = tables_[size_t(entity)];
        const auto key = entityKey(entity);
        table.name = key.toStdString();
        const auto list = QStringLiteral("SELECT name FROM pragma_table_info('%1') WHERE name NOT IN ('id', 'uuid', "
                                         "'removed', 'not_measured')")
                              .arg(key)
                              .toStdString();
        const auto ours = texts(ours_.prepare(list));
        const auto theirs = texts(theirs_.prepare(list));
        const auto naming = texts(ours_.prepare("SELECT name FROM pragma_index_info('" + table.name + "_named_once')"));
        if (!ours || !theirs || !naming)
            return !ours ? ours.error() : !theirs ? theirs.error() : naming.error();
        for (const auto& column : *ours)
            if (theirs->contains(column) && isPlainName(column))
                table.columns << column;
        table.naming = table.at(naming->value(0));
        for (const auto& column : table.columns) {
            const auto target = texts(ours_.prepare("SELECT \"table\" FROM pragma_foreign_key_list('" + table.name
                + "') WHERE \"from\" = '" + column.toStdString() + "'"));
            if (!target)
                return target.error();
            table.targets.push_back(entityFromKey(target->value(0)));
        }
    }
    return Done {};
}

Result<std::vector<qint64>> RowMerger::idsOf(Connection& side, Entity entity, bool removed)
{
    auto statement = side.prepare("SELECT id FROM " + table(entity).name + " WHERE removed = ? ORDER BY id");
    if (!statement)
        return statement.error();
    statement->bind(0, qint64(removed ? 1 : 0));
    return integers(std::move(statement));
}

Result<std::optional<MergeRow>> RowMerger::read(Connection& side, Entity entity, qint64 id)
{
    std::string names = "id, uuid, removed, not_measured";
    for (const auto& column : table(entity).columns)
        names += ", " + column.toStdString();
    auto statement = side.prepare("SELECT " + names + " FROM " + table(entity).name + " WHERE id = ?");
    if (!statement)
        return statement.error();
    const auto found = statement->bind(0, id).step();
    if (!found)
        return found.error();
    if (!*found)
        return std::optional<MergeRow> {};
    MergeRow row { statement->integer(0), statement->text(1), statement->integer(2) != 0, statement->text(3), {} };
    for (int i = 0; i < int(table(entity).columns.size()); ++i)
        row.values.push_back(statement->raw(i + 4));
    return std::optional(std::move(row));
}

Result<MergeRow> RowMerger::mustRead(Connection& side, Entity entity, qint64 id)
{
    auto row = read(side, entity, id);
    if (!row)
        return row.error();
    if (!*row)
        return damaged(Words::tr("row %1 of the table %2 is missing").arg(id).arg(entityKey(entity)), side.path());
    return std::move(**row);
}

Result<qint64> RowMerger::find(Connection& side, Entity entity, const QString& uuid)
{
    auto statement = side.prepare("SELECT id FROM " + table(entity).name + " WHERE uuid = ?");
    if (!statement)
        return statement.error();
    const auto found = statement->bind(0, uuid).step();
    if (!found)
        return found.error();
    return *found ? statement->integer(0) : qint64(0);
}

Result<QString> RowMerger::uuidOf(Connection& side, Entity entity, qint64 id)
{
    auto statement = side.prepare("SELECT uuid FROM " + table(entity).name + " WHERE id = ?");
    if (!statement)
        return statement.error();
    const auto found = statement->bind(0, id).step();
    if (!found)
        return found.error();
    return *found ? statement->text(0) : QString();
}

Result<Raw> RowMerger::here(const MergeTable& of, size_t column, const Raw& theirs)
{
    const auto* id = std::get_if<qint64>(&theirs);
    if (!of.targets[column] || !id)
        return theirs;
    const auto entity = *of.targets[column];
    auto& known = here_[size_t(entity)];
    if (const auto found = known.find(*id); found != known.end())
        return Raw(found->second);
    const auto uuid = uuidOf(theirs_, entity, *id);
    if (!uuid)
        return uuid.error();
    if (uuid->isEmpty())
        return Raw {}; // it points at nothing there
    const auto our_id = find(ours_, entity, *uuid);
    if (!our_id)
        return our_id.error();
    if (*our_id > 0) {
        known[*id] = *our_id;
        return Raw(*our_id);
    }
    const auto brought = bring(entity, *id);
    if (!brought)
        return brought.error();
    return Raw(*brought);
}

Result<qint64> RowMerger::bring(Entity entity, qint64 theirs)
{
    const auto found = mustRead(theirs_, entity, theirs);
    if (!found)
        return found.error();
    const auto& of = table(entity);
    const auto& row = *found;
    on_the_way_.insert(Ref(entity, theirs));
    std::vector<std::pair<QString, Raw>> values;
    std::vector<LateLink> late;
    for (size_t i = 0; i < row.values.size(); ++i) {
        const auto& column = of.columns[qsizetype(i)];
        const auto* id = std::get_if<qint64>(&row.values[i]);
        if (of.targets[i] && id && on_the_way_.contains(Ref(*of.targets[i], *id))) {
            late.push_back({ {}, column, *of.targets[i], *id }); // two rows that point at one another
            continue;
        }
        const auto value = here(of, i, row.values[i]);
        if (!value)
            return value.error();
        values.emplace_back(column, *value);
    }
    on_the_way_.erase(Ref(entity, theirs));
    if (of.naming >= 0)
        for (auto& [column, value] : values) {
            const auto* text = std::get_if<std::string>(&value);
            if (column != of.columns[of.naming] || !text)
                continue;
            const auto name = QString::fromStdString(*text);
            const auto free = freeName(entity, name, 0);
            if (!free)
                return free.error();
            if (*free == name)
                continue;
            value = free->toStdString();
            note_.renamed.insert(row.uuid, name);
            report_.renamed.push_back({ entity, name, *free });
        }
    const auto added = writer_.addRaw(entity, row.uuid, row.not_measured, values);
    if (!added)
        return added.error();
    here_[size_t(entity)][theirs] = *added;
    brought_.insert(Ref(entity, theirs));
    for (auto& link : late) {
        link.row = Ref(entity, *added);
        late_.push_back(link);
    }
    if (row.removed) // a row that is seen points at it
        if (auto done = writer_.setRaw(Ref(entity, *added), QStringLiteral("removed"), qint64(1), qint64(0)); !done)
            return done.error();
    report_.added[size_t(entity)] += row.removed ? 0 : 1;
    if (entity == Entity::Photo)
        if (auto done = copyPhoto(theirs, *added); !done)
            return done.error();
    return *added;
}

Outcome RowMerger::lateLinks()
{
    for (const auto& link : late_) {
        const auto& known = here_[size_t(link.target)];
        if (const auto found = known.find(link.theirs); found != known.end())
            if (auto done = writer_.setRaw(link.row, link.column, found->second, Raw {}); !done)
                return done;
    }
    return Done {};
}

Outcome RowMerger::copyPhoto(qint64 theirs, qint64 ours)
{
    auto statement = theirs_.prepare("SELECT data FROM photo_data WHERE photo = ?");
    if (!statement)
        return statement.error();
    const auto found = statement->bind(0, theirs).step();
    if (!found)
        return found.error();
    return *found ? writer_.addPhotoBytes(ours, statement->blobBytes(0)) : Outcome(Done {});
}

Outcome RowMerger::run(const std::function<bool(double)>& keep_going)
{
    if (auto done = readTables(); !done)
        return done;
    std::array<std::vector<qint64>, entityCount> seen;
    size_t all = 0;
    for (const auto entity : allEntities()) {
        auto ids = idsOf(theirs_, entity, false);
        if (!ids)
            return ids.error();
        all += ids->size();
        seen[size_t(entity)] = std::move(*ids);
    }
    using Work = Outcome (RowMerger::*)(Entity, const MergeRow&, const MergeRow&);
    const auto pair = [&](Entity entity, qint64 theirs, bool removed_here, Work work) -> Outcome {
        const auto their_row = mustRead(theirs_, entity, theirs);
        if (!their_row)
            return their_row.error();
        const auto our_id = find(ours_, entity, their_row->uuid);
        if (!our_id)
            return our_id.error();
        if (*our_id == 0)
            return Done {};
        here_[size_t(entity)][theirs] = *our_id;
        const auto our_row = mustRead(ours_, entity, *our_id);
        if (!our_row)
            return our_row.error();
        return our_row->removed == removed_here ? (this->*work)(entity, *our_row, *their_row) : Outcome(Done {});
    };
    // What was removed and what was renamed there goes first: it may make room for names that come.
    for (const auto entity : allEntities()) {
        const auto gone = idsOf(theirs_, entity, true);
        if (!gone)
            return gone.error();
        for (const auto id : *gone)
            if (auto done = pair(entity, id, false, &RowMerger::removeHere); !done)
                return done;
    }
    for (const auto entity : allEntities())
        if (table(entity).naming >= 0)
            for (const auto id : seen[size_t(entity)])
                if (auto done = pair(entity, id, false, &RowMerger::takeName); !done)
                    return done;
    if (auto done = giveNames(); !done)
        return done;
    size_t looked_at = 0;
    for (const auto entity : allEntities())
        for (const auto id : seen[size_t(entity)]) {
            if (looked_at++ % 256 == 0 && keep_going && !keep_going(double(looked_at) / double(all)))
                return Error { Trouble::Failed, Words::tr("Stopped; nothing was brought in."), {} };
            if (brought_.contains(Ref(entity, id)))
                continue;
            const auto uuid = uuidOf(theirs_, entity, id);
            if (!uuid)
                return uuid.error();
            const auto our_id = find(ours_, entity, *uuid);
            if (!our_id)
                return our_id.error();
            if (*our_id == 0) {
                if (const auto brought = bring(entity, id); !brought)
                    return brought.error();
                continue;
            }
            for (const bool removed : { true, false }) // what comes back is looked at as well
                if (auto done = pair(entity, id, removed, removed ? &RowMerger::restoreHere : &RowMerger::takeFields);
                    !done)
                    return done;
        }
    return lateLinks();
}

} // namespace washfast::store
