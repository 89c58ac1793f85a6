// What has changed in the file, and bringing a notebook in memory up to it.
#include "core/store/notebook_file.h"
#include "core/store/reading.h"
#include "core/store/rows.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>
#include <map>
#include <set>

namespace washfast::store {

namespace {

/// Nothing for a kind of record that only a newer version of the program knows.
std::optional<HistoryEntry> entryFrom(const Statement& row)
{
    const auto entity = entityFromKey(row.text(3));
    if (!entity)
        return std::nullopt;
    HistoryEntry entry;
    entry.id = row.integer(0);
    entry.step = row.integer(1);
    entry.at = row.text(2);
    entry.row = { *entity, row.integer(4) };
    entry.field = row.text(5);
    entry.old_value = row.raw(6);
    entry.new_value = row.raw(7);
    entry.step_label = row.text(8);
    return entry;
}

constexpr const char* selectHistory
    = "SELECT h.id, coalesce(h.step, 0), h.at, h.entity, h.row, h.field, h.old, h.new, s.label "
      "FROM history h LEFT JOIN step s ON s.id = h.step ";

Result<std::vector<HistoryEntry>> gather(Result<Statement> statement)
{
    std::vector<HistoryEntry> entries;
    auto done = eachRow(std::move(statement), [&](const Statement& row) {
        if (auto entry = entryFrom(row))
            entries.push_back(std::move(*entry));
    });
    if (!done)
        return done.error();
    return entries;
}

/// Whether a row has a place in this notebook: everything has in a complete one; in one that holds a session, its
/// prints and what belongs to them, and all that is shared.
bool belongs(const Notebook& notebook, const Record& record)
{
    if (notebook.complete || !notebook.only_session)
        return true;
    if (record.ref.entity == Entity::Print) {
        const int session = notebook.catalogue().column(Entity::Print, u"print_session");
        return record.values[size_t(session)].link() == notebook.only_session;
    }
    const auto owner = ownerOf(record.ref.entity);
    return !owner || owner->entity != Entity::Print || notebook.prints().find(record.owner) >= 0;
}

QJsonObject evidenceOf(const Raw& raw)
{
    const auto* text = std::get_if<std::string>(&raw);
    return text ? QJsonDocument::fromJson(QByteArray::fromStdString(*text)).object() : QJsonObject();
}

/// The fields that a view has to look at, each once: a change of evidence is one of the fields that it is about.
void addFields(const HistoryEntry& entry, QStringList& fields)
{
    if (entry.field.isEmpty() || entry.field == QLatin1String("removed"))
        return; // the row has come, gone or come back
    QStringList names { entry.field };
    if (entry.field == QLatin1String("not_measured")) {
        const auto before = evidenceOf(entry.old_value);
        const auto after = evidenceOf(entry.new_value);
        names = before.keys() + after.keys();
        names.removeIf([&](const QString& name) { return before.value(name) == after.value(name); });
    }
    for (const auto& name : names)
        if (!fields.contains(name))
            fields << name;
}

} // namespace

Result<std::vector<HistoryEntry>> NotebookFile::changesSince(qint64 entry)
{
    auto statement = connection_->prepare(std::string(selectHistory) + "WHERE h.id > ? ORDER BY h.id");
    if (statement)
        statement->bind(0, entry);
    return gather(std::move(statement));
}

Result<std::vector<HistoryEntry>> NotebookFile::historyOf(Ref row)
{
    std::string where = "WHERE (h.entity = ? AND h.row = ?)";
    for (const auto child : allEntities())
        if (const auto owner = ownerOf(child); owner && owner->entity == row.entity) {
            const auto table = entityKey(child).toStdString();
            where += " OR (h.entity = '" + table + "' AND h.row IN (SELECT id FROM " + table + " WHERE "
                + owner->column.toStdString() + " = ?2))";
        }
    auto statement = connection_->prepare(std::string(selectHistory) + where + " ORDER BY h.id");
    if (statement)
        statement->bind(0, entityKey(row.entity)).bind(1, row.id);
    return gather(std::move(statement));
}

Result<std::vector<Change>> NotebookFile::refresh(Notebook& notebook)
{
    // One read transaction, so that the history and the rows are of the same moment.
    if (auto done = connection_->script("BEGIN"); !done)
        return done.error();
    auto changes = applyChanges(notebook);
    if (auto ended = connection_->script("COMMIT"); !ended)
        return ended.error();
    return changes;
}

Result<std::vector<Change>> NotebookFile::applyChanges(Notebook& notebook)
{
    const auto entries = changesSince(notebook.last_change);
    if (!entries)
        return entries.error();
    std::vector<Change> changes;
    // In the order of the entities: what is pointed at comes before what points.
    std::map<Ref, QStringList> touched;
    for (const auto& entry : *entries)
        addFields(entry, touched[entry.row]);
    // A print that comes into the session brings its children, one that leaves takes them along.
    std::set<qint64> moved;
    for (const auto& [ref, fields] : touched) {
        const auto& columns = present_[size_t(ref.entity)];
        if (columns.empty())
            continue; // a schema older than this kind of record
        std::vector<std::pair<const Field*, QString>> not_understood;
        const auto record = readRecord(*connection_, *catalogue_, columns, ref, &not_understood);
        if (!record)
            return record.error();
        for (const auto& [field, found] : not_understood)
            complain(notebook, ref.id, *field, found);
        auto& table = notebook.edit(ref.entity);
        int row = table.find(ref.id);
        const bool stays = *record && belongs(notebook, **record);
        if (row >= 0 && (!stays || table.owner(row) != (*record)->owner)) {
            changes.push_back({ Change::What::Removed, ref, {}, table.owner(row) });
            table.erase(row);
            row = -1;
            if (ref.entity == Entity::Print)
                moved.insert(ref.id);
        }
        if (!stays)
            continue;
        if (row < 0) {
            table.insert(**record);
            changes.push_back({ Change::What::Added, ref, {}, (*record)->owner });
            if (ref.entity == Entity::Print)
                moved.insert(ref.id);
            continue;
        }
        for (const int column : columns)
            table.set(row, column, (*record)->values[size_t(column)]);
        for (const auto& field : fields)
            changes.push_back({ Change::What::Set, ref, field, (*record)->owner });
    }
    if (notebook.only_session)
        for (const auto print : moved)
            if (auto done = moveChildren(notebook, print, changes); !done)
                return done.error();
    notebook.last_change = std::max(notebook.last_change, entries->empty() ? 0 : entries->back().id);
    return changes;
}

Outcome NotebookFile::moveChildren(Notebook& notebook, qint64 print, std::vector<Change>& changes)
{
    const bool here = notebook.prints().find(print) >= 0;
    for (const auto child : allEntities()) {
        const auto owner = ownerOf(child);
        const auto& columns = present_[size_t(child)];
        if (!owner || owner->entity != Entity::Print || columns.empty())
            continue;
        if (!here) {
            std::vector<int> rows(notebook.children(child, print).begin(), notebook.children(child, print).end());
            for (auto row = rows.rbegin(); row != rows.rend(); ++row) {
                auto& table = notebook.edit(child);
                changes.push_back({ Change::What::Removed, Ref(child, table.id(*row)), {}, print });
                table.erase(*row);
            }
            continue;
        }
        Writer reader(*connection_, *catalogue_);
        const auto ids = reader.children(child, print);
        if (!ids)
            return ids.error();
        for (const auto id : *ids) {
            if (notebook.table(child).find(id) >= 0)
                continue;
            const auto record = readRecord(*connection_, *catalogue_, columns, { child, id });
            if (!record)
                return record.error();
            if (*record) {
                notebook.edit(child).insert(**record);
                changes.push_back({ Change::What::Added, Ref(child, id), {}, print });
            }
        }
    }
    return Done {};
}

} // namespace washfast::store
