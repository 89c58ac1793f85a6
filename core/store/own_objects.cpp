#include "core/store/own_objects.h"

#include "core/store/rows.h"
#include "core/store/words.h"

#include <map>

namespace washfast::store {

namespace {

struct SchemaObject {
    bool view = false;
    QString name, table, sql;
};

/// The triggers and views of a file by name, in small letters as SQLite compares them.
Result<std::map<QString, SchemaObject>> objectsIn(Connection& connection)
{
    std::map<QString, SchemaObject> objects;
    auto done = eachRow(
        connection.prepare("SELECT type = 'view', name, tbl_name, sql FROM sqlite_schema WHERE type IN ('trigger', "
                           "'view')"),
        [&](const Statement& row) {
            objects[row.text(1).toLower()]
                = { row.integer(0) != 0, row.text(1), row.text(2), row.text(3).simplified() };
        });
    if (!done)
        return done.error();
    return objects;
}

} // namespace

Result<QStringList> strangeObjects(NotebookFile& file)
{
    const auto migrations = shippedMigrations();
    if (file.schema() != migrations.back().to)
        return QStringList();
    auto pattern = Connection::open(QStringLiteral(":memory:"), Connection::Mode::ReadWrite);
    if (!pattern)
        return pattern.error();
    if (auto made = migrate(**pattern, migrations); !made)
        return made.error();
    const auto ours = objectsIn(**pattern);
    const auto found = objectsIn(file.connection());
    if (!ours || !found)
        return ours ? found.error() : ours.error();
    QStringList says;
    for (const auto& [key, object] : *found) {
        const auto own = ours->find(key);
        if (own == ours->end())
            says << (object.view
                    ? Words::tr("The view %1 is not one that Washfast makes.").arg(object.name)
                    : Words::tr("The trigger %1 of the table %2 is not one that Washfast makes; it runs when the "
                                "notebook is written to.")
                          .arg(object.name, object.table));
        else if (own->second.view != object.view || own->second.sql != object.sql)
            says << Words::tr("The trigger %1 of the table %2 is not as Washfast makes it.")
                        .arg(object.name, object.table);
    }
    for (const auto& [key, object] : *ours)
        if (!found->contains(key))
            says << Words::tr("The trigger %1 of the table %2 is missing: the history may not be kept.")
                        .arg(object.name, object.table);
    return says;
}

} // namespace washfast::store
