#include "core/store/migrations.h"

#include "core/quantity/entity.h"
#include "core/store/rows.h"
#include "core/store/words.h"

#include <QFile>

static void initSchemaResource()
{
    Q_INIT_RESOURCE(schema);
}

namespace washfast::store {

std::vector<Migration> shippedMigrations()
{
    initSchemaResource();
    std::vector<Migration> all;
    for (int number = 1;; ++number) {
        QFile file(QStringLiteral(":/schema/%1.sql").arg(number, 4, 10, QLatin1Char('0')));
        if (!file.open(QIODevice::ReadOnly))
            return all;
        all.push_back({ number, file.readAll() });
    }
}

namespace {

Result<QStringList> columnsOf(Connection& connection, const QString& table)
{
    return texts(connection.prepare("SELECT name FROM pragma_table_info('" + table.toStdString() + "')"));
}

/// A trigger made anew. `when` may be empty.
QString trigger(
    const QString& name, const QString& event, const QString& table, const QString& when, const QString& does)
{
    const QString condition = when.isEmpty() ? QString() : QStringLiteral(" WHEN ") + when;
    return QStringLiteral("DROP TRIGGER IF EXISTS %1; CREATE TRIGGER %1 %2 ON %3%4 BEGIN %5; END;\n")
        .arg(name, event, table, condition, does);
}

QString refuse(const char* why)
{
    return QStringLiteral("SELECT RAISE(ABORT, '%1')").arg(QLatin1String(why));
}

/// INSERT OR REPLACE deletes the row in its way without asking the triggers against deleting, so that it must not get
/// there.
QString neverReplaced(const QString& table, const QString& taken)
{
    return trigger(table + QStringLiteral("_once"), QStringLiteral("BEFORE INSERT"), table, taken,
        refuse("UNIQUE id, uuid or name: a row of a notebook is never replaced"));
}

QString triggersFor(const QString& table, const QStringList& columns, const QString& name)
{
    // The step that is being written: the newest, while it is open. Changes by another program have none.
    const auto step = QStringLiteral("(SELECT id FROM step WHERE id = (SELECT max(id) FROM step) AND closed = 0)");
    const auto now = QStringLiteral("strftime('%Y-%m-%dT%H:%M:%fZ', 'now')");
    QStringList pairs;
    for (const auto& column : columns)
        if (column != QLatin1String("id") && column != QLatin1String("uuid"))
            pairs << QStringLiteral("SELECT '%1' AS c, old.%1 AS o, new.%1 AS n").arg(column);
    QString sql = trigger(table + QStringLiteral("_added"), QStringLiteral("AFTER INSERT"), table, {},
        QStringLiteral("INSERT INTO history(step, at, entity, row) VALUES (%1, %2, '%3', new.id)")
            .arg(step, now, table));
    sql += trigger(table + QStringLiteral("_changed"), QStringLiteral("AFTER UPDATE"), table, {},
        QStringLiteral("INSERT INTO history(step, at, entity, row, field, old, new) "
                       "SELECT %1, %2, '%3', new.id, c, o, n FROM (%4) WHERE o IS NOT n")
            .arg(step, now, table, pairs.join(QStringLiteral(" UNION ALL "))));
    sql += trigger(table + QStringLiteral("_kept"), QStringLiteral("BEFORE DELETE"), table, {},
        refuse("rows of a notebook are never deleted; set removed to 1"));
    sql += trigger(table + QStringLiteral("_same"), QStringLiteral("BEFORE UPDATE OF id, uuid"), table,
        QStringLiteral("old.id IS NOT new.id OR old.uuid IS NOT new.uuid"),
        refuse("id and uuid of a row never change"));

    QString taken = QStringLiteral(
        "EXISTS (SELECT 1 FROM %1 WHERE id = new.id) OR EXISTS (SELECT 1 FROM %1 WHERE uuid = new.uuid)")
                        .arg(table);
    if (!name.isEmpty()) {
        const auto named
            = QStringLiteral("EXISTS (SELECT 1 FROM %1 WHERE %2 = new.%2 COLLATE NOCASE AND removed = 0%3)");
        taken += QStringLiteral(" OR (new.removed = 0 AND %1)").arg(named.arg(table, name, QString()));
        sql += trigger(table + QStringLiteral("_apart"), QStringLiteral("BEFORE UPDATE OF %1, removed").arg(name),
            table,
            QStringLiteral("new.removed = 0 AND %1").arg(named.arg(table, name, QStringLiteral(" AND id <> old.id"))),
            refuse("UNIQUE name: a row of a notebook is never replaced"));
    }
    return sql + neverReplaced(table, taken);
}

} // namespace

Outcome makeHistoryTriggers(Connection& connection)
{
    QString sql;
    for (const auto entity : allEntities()) {
        const auto table = entityKey(entity);
        const auto columns = columnsOf(connection, table);
        if (!columns)
            return columns.error();
        if (columns->isEmpty())
            continue; // a schema older than this kind of record
        const auto name = connection.text(
            QStringLiteral("SELECT name FROM pragma_index_info('%1_named_once')").arg(table).toStdString());
        if (!name)
            return name.error();
        sql += triggersFor(table, *columns, *name);
    }
    for (const char* kept : { "step", "history", "photo_data" }) {
        const auto table = QString::fromLatin1(kept);
        const auto key = table == QLatin1String("photo_data") ? QStringLiteral("photo") : QStringLiteral("id");
        sql += neverReplaced(table, QStringLiteral("EXISTS (SELECT 1 FROM %1 WHERE %2 = new.%2)").arg(table, key));
    }
    return connection.script(sql.toUtf8());
}

Outcome migrate(Connection& connection, const std::vector<Migration>& migrations)
{
    constexpr double most_s = 600; // a large table may be written anew
    const Unhurried unhurried(connection, most_s);
    auto transaction = Transaction::begin(connection);
    if (!transaction)
        return transaction.error();
    // Read while nobody else can write: another window may have done it while we waited for the lock.
    const auto version = connection.integer("PRAGMA user_version");
    if (!version)
        return version.error();
    if (migrations.empty() || *version >= migrations.back().to)
        return Done {};
    for (const auto& migration : migrations) {
        if (migration.to <= *version)
            continue;
        const QByteArray number("PRAGMA user_version = " + QByteArray::number(migration.to));
        for (const auto& part : { migration.sql, number })
            if (auto done = connection.script(part); !done) {
                auto error = done.error();
                error.where = Words::tr("step %1 of the schema").arg(migration.to);
                return error;
            }
    }
    if (auto done = makeHistoryTriggers(connection); !done)
        return done.error();
    return (*transaction)->commit();
}

} // namespace washfast::store
