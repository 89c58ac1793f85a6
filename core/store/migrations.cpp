#include "core/store/migrations.h"

#include "core/quantity/entity.h"

#include <QCoreApplication>
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
    auto statement = connection.prepare("SELECT name FROM pragma_table_info('" + table.toStdString() + "')");
    if (!statement)
        return statement.error();
    QStringList columns;
    for (;;) {
        const auto row = statement->step();
        if (!row)
            return row.error();
        if (!*row)
            return columns;
        columns << statement->text(0);
    }
}

QByteArray triggersFor(const QString& table, const QStringList& columns)
{
    // The step that is being written: the newest, while it is open. Changes by another program have none.
    const auto step = QStringLiteral("(SELECT id FROM step WHERE id = (SELECT max(id) FROM step) AND closed = 0)");
    const auto now = QStringLiteral("strftime('%Y-%m-%dT%H:%M:%fZ', 'now')");
    QStringList pairs;
    for (const auto& column : columns)
        if (column != QLatin1String("id") && column != QLatin1String("uuid"))
            pairs << QStringLiteral("SELECT '%1' AS c, old.%1 AS o, new.%1 AS n").arg(column);
    QString sql;
    sql += QStringLiteral("DROP TRIGGER IF EXISTS %1_added; DROP TRIGGER IF EXISTS %1_changed; DROP TRIGGER IF EXISTS %1_kept; "
                          "DROP TRIGGER IF EXISTS %1_same;")
               .arg(table);
    sql += QStringLiteral("CREATE TRIGGER %1_added AFTER INSERT ON %1 BEGIN "
                          "INSERT INTO history(step, at, entity, row) VALUES (%2, %3, '%1', new.id); END;")
               .arg(table, step, now);
    sql += QStringLiteral("CREATE TRIGGER %1_changed AFTER UPDATE ON %1 BEGIN "
                          "INSERT INTO history(step, at, entity, row, field, old, new) "
                          "SELECT %2, %3, '%1', new.id, c, o, n FROM (%4) WHERE o IS NOT n; END;")
               .arg(table, step, now, pairs.join(QStringLiteral(" UNION ALL ")));
    sql += QStringLiteral("CREATE TRIGGER %1_kept BEFORE DELETE ON %1 BEGIN "
                          "SELECT RAISE(ABORT, 'rows of a notebook are never deleted; set removed to 1'); END;")
               .arg(table);
    sql += QStringLiteral("CREATE TRIGGER %1_same BEFORE UPDATE OF id, uuid ON %1 WHEN old.id IS NOT new.id OR old.uuid IS NOT new.uuid BEGIN "
                          "SELECT RAISE(ABORT, 'id and uuid of a row never change'); END;")
               .arg(table);
    return sql.toUtf8();
}

} // namespace

Outcome makeHistoryTriggers(Connection& connection)
{
    for (const auto entity : allEntities()) {
        const auto table = entityKey(entity);
        const auto columns = columnsOf(connection, table);
        if (!columns)
            return columns.error();
        if (columns->isEmpty())
            continue; // a schema older than this kind of record
        if (auto done = connection.script(triggersFor(table, *columns)); !done)
            return done.error();
    }
    return Done {};
}

Outcome migrate(Connection& connection, const std::vector<Migration>& migrations)
{
    const auto version = connection.integer("PRAGMA user_version");
    if (!version)
        return version.error();
    for (const auto& migration : migrations) {
        if (migration.to <= *version)
            continue;
        auto transaction = Transaction::begin(connection);
        if (!transaction)
            return transaction.error();
        // Somebody else may have done it while we waited for the lock.
        const auto now = connection.integer("PRAGMA user_version");
        if (!now)
            return now.error();
        if (*now >= migration.to)
            continue;
        for (const auto& part : { migration.sql, QByteArray("PRAGMA user_version = " + QByteArray::number(migration.to)) })
            if (auto done = connection.script(part); !done) {
                auto error = done.error();
                error.where = QCoreApplication::translate("Store", "step %1 of the schema").arg(migration.to);
                return error;
            }
        if (auto done = makeHistoryTriggers(connection); !done)
            return done.error();
        if (auto done = (*transaction)->commit(); !done)
            return done.error();
    }
    return Done {};
}

} // namespace washfast::store
