#include "core/store/rescue.h"

#include "core/store/rows.h"
#include "core/store/words.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <cstdio>
#include <unistd.h>

namespace washfast::store {

namespace {

constexpr qint64 pieceBytes = 1 << 20;
const QString rescueEnding = QStringLiteral("-rescued");
const QString rescueLog = QStringLiteral("-wal");

/// A name in the folder that no file has yet.
QString freeName(const QDir& folder, const QString& notebook)
{
    const QFileInfo file(notebook);
    const auto ending = file.suffix().isEmpty() ? QString() : QLatin1Char('.') + file.suffix();
    const auto stem = file.completeBaseName() + rescueEnding;
    QString path = folder.filePath(stem + ending);
    for (int next = 2; QFile::exists(path) || QFile::exists(path + rescueLog); ++next)
        path = folder.filePath(QStringLiteral("%1-%2%3").arg(stem).arg(next).arg(ending));
    return path;
}

Error notSaved(const QString& path)
{
    return { Trouble::ReadOnly, Words::tr("What is shown could not be saved in another file."), path };
}

/// Puts the bytes of a file on the disk itself.
bool onDisk(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadWrite) && ::fsync(file.handle()) == 0;
}

/// As a whole notebook without a log.
Outcome saveWhole(Connection& connection, const QString& part)
{
    if (auto done = connection.copyInto(part); !done)
        return done;
    auto saved = Connection::open(part, Connection::Mode::ReadOnly);
    if (!saved)
        return saved.error();
    const auto check = (*saved)->text("PRAGMA integrity_check(1)");
    if (!check)
        return check.error();
    if (*check != QLatin1String("ok"))
        return damaged(*check, part);
    return onDisk(part) ? Outcome(Done {}) : notSaved(part);
}

Outcome saveBytes(FileId from, const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly | QIODevice::NewOnly))
        return notSaved(path);
    for (qint64 at = 0;; at += pieceBytes) {
        const auto piece = file_locks::peek(from, at, pieceBytes);
        if (!piece || (!piece->isEmpty() && file.write(*piece) != piece->size()))
            return notSaved(path);
        if (piece->size() < pieceBytes)
            break;
    }
    return file.flush() && ::fsync(file.handle()) == 0 ? Outcome(Done {}) : notSaved(path);
}

Result<Rescued> rescueIn(Connection& connection, const QDir& folder, const QString& notebook)
{
    const auto path = freeName(folder, notebook);
    const auto part = path + QStringLiteral(".part");
    QFile::remove(part);
    const auto whole = saveWhole(connection, part);
    if (whole && std::rename(QFile::encodeName(part).constData(), QFile::encodeName(path).constData()) == 0)
        return Rescued { path, true };
    QFile::remove(part);
    if (!whole && (whole.error().code == Trouble::NoSpace || whole.error().code == Trouble::ReadOnly))
        return whole.error();
    // What does not hang together is kept as it is: somebody may still make something of it.
    const auto file = connection.hold().file();
    if (!file)
        return notSaved(path);
    if (auto done = saveBytes(*file, path); !done) {
        QFile::remove(path);
        return done.error();
    }
    if (const auto log = connection.hold().log())
        if (auto done = saveBytes(log->file, path + rescueLog); !done)
            return done.error();
    return Rescued { path, false };
}

} // namespace

Result<Rescued> rescue(Connection& connection, const QString& notebook)
{
    auto saved = rescueIn(connection, QFileInfo(notebook).absoluteDir(), notebook);
    if (!saved) {
        auto elsewhere = rescueIn(connection, QDir::home(), notebook);
        if (elsewhere)
            return elsewhere;
    }
    return saved;
}

namespace {

Result<QStringList> settingsOf(Connection& connection)
{
    return texts(connection.prepare("SELECT key || ' ' || coalesce(value, '') FROM setting ORDER BY key"));
}

} // namespace

Result<HistoryEnd> historyEnd(Connection& connection)
{
    HistoryEnd end;
    const std::pair<const char*, qint64*> numbers[]
        = { { "SELECT max(id) FROM step", &end.step }, { "SELECT max(id) FROM history", &end.entry } };
    for (const auto& [sql, to] : numbers) {
        const auto number = connection.integer(sql);
        if (!number)
            return number.error();
        *to = *number;
    }
    const std::pair<const char*, QString*> words[] = { { "SELECT uuid FROM step ORDER BY id LIMIT 1", &end.first_step },
        { "SELECT uuid FROM step ORDER BY id DESC LIMIT 1", &end.last_step },
        { "SELECT at FROM history ORDER BY id DESC LIMIT 1", &end.last_at } };
    for (const auto& [sql, to] : words) {
        const auto word = connection.text(sql);
        if (!word)
            return word.error();
        *to = *word;
    }
    const auto settings = settingsOf(connection);
    if (!settings)
        return settings.error();
    end.settings = *settings;
    return end;
}

bool hasAllOf(Connection& there, const HistoryEnd& end)
{
    const auto step = there.text("SELECT uuid FROM step WHERE id = " + std::to_string(end.step));
    const auto at = there.text("SELECT at FROM history WHERE id = " + std::to_string(end.entry));
    const auto settings = settingsOf(there);
    if (!step || !at || !settings || *step != end.last_step || *at != end.last_at)
        return false;
    return std::all_of(
        end.settings.begin(), end.settings.end(), [&](const QString& one) { return settings->contains(one); });
}

bool beganAlike(Connection& there, const HistoryEnd& end)
{
    const auto first = there.text("SELECT uuid FROM step ORDER BY id LIMIT 1");
    return first && *first == end.first_step;
}

} // namespace washfast::store
