#include "core/store/soundness.h"

#include "core/store/rows.h"
#include "core/store/to_read.h"
#include "core/store/words.h"

#include <chrono>

namespace washfast::store {

namespace {

/// SQLite's answer without its heading "*** in database main ***", one line of it.
QString firstFault(const QString& answer)
{
    for (const auto& line : answer.split(QLatin1Char('\n'), Qt::SkipEmptyParts))
        if (!line.startsWith(QLatin1String("***")))
            return line.trimmed();
    return answer.trimmed();
}

/// A look that ended in an error. Pages that cannot be read are a fault of the file, as are those that make no sense;
/// that it is held by somebody else, or may not be read, is none.
Look brokenOff(const Connection& connection, const Error& error, const BreakOff& watch)
{
    const bool fault = error.code == Trouble::Damaged || error.code == Trouble::Failed;
    if (watch.happened() || !fault)
        return { false, {} };
    return { true, connection.detail() };
}

/// What one of SQLite's two checks says.
Look ask(Connection& connection, const std::string& pragma, const BreakOff& watch)
{
    const auto answer = connection.text(pragma);
    if (!answer)
        return brokenOff(connection, answer.error(), watch);
    return { true, *answer == QLatin1String("ok") ? QString() : firstFault(*answer) };
}

/// The tables in the order in which they are looked at: prints first, the bytes of photos last.
Result<QStringList> tablesToLookAt(Connection& connection)
{
    return texts(
        connection.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite!_%' "
                           "ESCAPE '!' ORDER BY name = 'photo_data', name <> 'print', name = 'history', name"));
}

} // namespace

Look quickLook(Connection& connection, int most_ms)
{
    if (most_ms <= 0)
        return { false, {} };
    const Unhurried unhurried(connection);
    const BreakOff watch(connection.handle(), most_ms, {});
    const auto tables = tablesToLookAt(connection);
    if (!tables)
        return brokenOff(connection, tables.error(), watch);
    for (auto table : *tables) {
        table.replace(QLatin1Char('"'), QLatin1String("\"\""));
        const auto look = ask(connection, "PRAGMA quick_check(\"" + table.toStdString() + "\")", watch);
        if (!look.sound())
            return look;
    }
    return ask(connection, "PRAGMA quick_check", watch); // the free pages as well
}

Look wholeLook(Connection& connection, const std::stop_token& stop)
{
    if (stop.stop_requested())
        return { false, {} };
    const Unhurried unhurried(connection);
    const BreakOff watch(connection.handle(), std::nullopt, stop);
    return ask(connection, "PRAGMA integrity_check", watch);
}

Result<Look> wholeLook(const QString& path, const std::stop_token& stop)
{
    // Another program may begin to write while the file is looked at as one that rests: then once more.
    for (int time = 0;; ++time) {
        auto reading = openToRead(path);
        if (!reading)
            return reading.error();
        auto look = wholeLook(*reading->connection, stop);
        if (!look.damaged() || reading->stillTheSame() || time > 3)
            return look;
    }
}

Result<QString> soundness(NotebookFile& file)
{
    // The file itself: what is read of an older one is a copy that has been brought up to date.
    const auto look = wholeLook(file.path());
    if (!look)
        return look.error();
    if (look->damaged())
        return look->fault;
    QStringList loose;
    auto done
        = eachRow(file.connection().prepare("SELECT \"table\", rowid, parent FROM pragma_foreign_key_check LIMIT 20"),
            [&](const Statement& row) {
                loose << Words::tr("%1 %2 points at a %3 that does not exist")
                             .arg(row.text(0), QString::number(row.integer(1)), row.text(2));
            });
    if (!done)
        return done.error();
    return loose.isEmpty() ? QStringLiteral("ok") : loose.join(QStringLiteral("; "));
}

} // namespace washfast::store
