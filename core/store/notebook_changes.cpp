// What has changed in the file, and bringing a notebook in memory up to it.
#include "core/store/notebook_file.h"

#include <map>

namespace washfast::store {

namespace {

HistoryEntry entryFrom(const Statement& row)
{
    HistoryEntry entry;
    entry.id = row.integer(0);
    entry.step = row.integer(1);
    entry.at = row.text(2);
    entry.row = { entityFromKey(row.text(3)).value_or(Entity::Print), row.integer(4) };
    entry.field = row.text(5);
    entry.old_value = row.raw(6);
    entry.new_value = row.raw(7);
    entry.step_label = row.text(8);
    return entry;
}

constexpr const char* selectHistory = "SELECT h.id, coalesce(h.step, 0), h.at, h.entity, h.row, h.field, h.old, h.new, s.label "
                                      "FROM history h LEFT JOIN step s ON s.id = h.step ";

Result<std::vector<HistoryEntry>> gather(Result<Statement> statement)
{
    if (!statement)
        return statement.error();
    std::vector<HistoryEntry> entries;
    for (;;) {
        const auto row = statement->step();
        if (!row)
            return row.error();
        if (!*row)
            return entries;
        entries.push_back(entryFrom(*statement));
    }
}

/// Whether a row has a place in this notebook: everything has in a complete one; in one that holds a session, its prints and
/// what belongs to them, and all that is shared.
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
            where += " OR (h.entity = '" + table + "' AND h.row IN (SELECT id FROM " + table + " WHERE " + owner->column.toStdString() + " = ?2))";
        }
    auto statement = connection_->prepare(std::string(selectHistory) + where + " ORDER BY h.id");
    if (statement)
        statement->bind(0, entityKey(row.entity)).bind(1, row.id);
    return gather(std::move(statement));
}

Result<std::vector<Change>> NotebookFile::refresh(Notebook& notebook)
{
    const auto entries = changesSince(notebook.last_change);
    if (!entries)
        return entries.error();
    std::vector<Change> changes;
    std::map<Ref, std::vector<QString>> touched; // in the order of the entities: what is pointed at comes before what points
    for (const auto& entry : *entries)
        touched[entry.row].push_back(entry.field);
    for (const auto& [ref, fields] : touched) {
        if (ref.entity == Entity::Photo && present_[size_t(ref.entity)].empty())
            continue;
        const auto record = readRecord(*connection_, *catalogue_, present_[size_t(ref.entity)], ref);
        if (!record)
            return record.error();
        auto& table = notebook.edit(ref.entity);
        const int row = table.find(ref.id);
        if (!*record || !belongs(notebook, **record)) {
            if (row >= 0) {
                changes.push_back({ Change::What::Removed, ref, {}, table.owner(row) });
                table.erase(row);
            }
            continue;
        }
        if (row < 0) {
            table.insert(**record);
            changes.push_back({ Change::What::Added, ref, {}, (*record)->owner });
            continue;
        }
        for (const int column : present_[size_t(ref.entity)])
            table.set(row, column, (*record)->values[size_t(column)]);
        for (const auto& field : fields)
            if (!field.isEmpty())
                changes.push_back({ Change::What::Set, ref, field, (*record)->owner });
    }
    if (!entries->empty())
        notebook.last_change = entries->back().id;
    return changes;
}

} // namespace washfast::store
