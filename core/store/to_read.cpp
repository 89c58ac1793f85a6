#include "core/store/to_read.h"

#include "core/store/words.h"

#include <QFile>
#include <sqlite3.h>
#include <sys/stat.h>

namespace washfast::store {

namespace {

constexpr qint64 mostInMemory = qint64(128) << 20; // bytes

bool hasLog(const QString& path)
{
    return QFile::exists(path + QStringLiteral("-wal")) || QFile::exists(path + QStringLiteral("-journal"));
}

Outcome copyPages(Connection& from, Connection& to)
{
    sqlite3_backup* backup = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
    if (!backup)
        return to.lastError();
    const int stepped = sqlite3_backup_step(backup, -1); // all of it
    const int finished = sqlite3_backup_finish(backup);
    if (stepped != SQLITE_DONE || finished != SQLITE_OK)
        return finished == SQLITE_OK ? from.lastError() : to.lastError();
    return Done {};
}

} // namespace

FileStamp stampOf(const QString& path)
{
    struct stat found { };
    if (::stat(QFile::encodeName(path).constData(), &found) != 0)
        return {};
    return { quint64(found.st_dev), quint64(found.st_ino), qint64(found.st_size),
        qint64(found.st_mtim.tv_sec) * 1'000'000'000 + found.st_mtim.tv_nsec };
}

Result<ReadingConnection> openToRead(const QString& path)
{
    ReadingConnection reading;
    reading.path = path;
    const auto stamp = stampOf(path); // before the log is looked for: who begins to write makes the log first
    const bool rests = !hasLog(path);
    auto connection = Connection::open(path, rests ? Connection::Mode::Immutable : Connection::Mode::ReadOnly);
    if (!connection)
        return connection.error();
    reading.connection = std::move(connection).value();
    if (rests)
        reading.at_rest = stamp;
    return reading;
}

Result<std::unique_ptr<Connection>> upgradedCopy(
    Connection& from, const std::vector<Migration>& migrations, std::unique_ptr<QTemporaryDir>& scratch)
{
    const auto bytes = from.integer("SELECT page_count * page_size FROM pragma_page_count, pragma_page_size");
    if (!bytes)
        return bytes.error();
    QString path = QStringLiteral(":memory:");
    if (*bytes > mostInMemory) {
        scratch = std::make_unique<QTemporaryDir>();
        if (!scratch->isValid())
            return Error { Trouble::ReadOnly, Words::tr("No temporary folder can be made."), scratch->path() };
        path = scratch->filePath(QStringLiteral("copy.washfast"));
    }
    auto copy = Connection::open(path, Connection::Mode::ReadWrite);
    if (!copy)
        return copy.error();
    if (auto done = (*copy)->script("PRAGMA synchronous = OFF"); !done) // it goes away anyway
        return done.error();
    if (auto done = copyPages(from, **copy); !done)
        return done.error();
    if (auto done = migrate(**copy, migrations); !done)
        return done.error();
    if (auto done = (*copy)->script("PRAGMA query_only = ON"); !done)
        return done.error();
    return copy;
}

} // namespace washfast::store
