#include "core/store/copies.h"

#include "core/store/connection.h"
#include "core/store/words.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QUuid>
#include <algorithm>
#include <cstdio>
#include <unistd.h>

namespace washfast::store {

namespace {

const QString partEnding = QStringLiteral(".part");

/// Puts a file's bytes on the disk itself: VACUUM INTO leaves that to the system.
bool settle(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadWrite) && ::fsync(file.handle()) == 0;
}

/// Writes a whole copy under a passing name first, so that a copy with its proper name is always whole.
Outcome copyWhole(const QString& notebook, const QString& target)
{
    auto connection = Connection::open(notebook, Connection::Mode::ReadOnly);
    if (!connection)
        return connection.error();
    // The passing name is nobody else's: two windows may make the day's copy at the same time.
    const QString part = target + QLatin1Char('.') + QUuid::createUuid().toString(QUuid::WithoutBraces) + partEnding;
    auto statement = (*connection)->prepare("VACUUM INTO ?");
    if (!statement)
        return statement.error();
    statement->bind(0, part);
    if (auto done = statement->run(); !done) {
        QFile::remove(part);
        return done.error();
    }
    if (!settle(part) || std::rename(QFile::encodeName(part).constData(), QFile::encodeName(target).constData()) != 0) {
        QFile::remove(part);
        return Error { Trouble::ReadOnly, Words::tr("The copy could not be put in its place."), target };
    }
    return Done {};
}

Outcome makeFolder(const QString& notebook)
{
    if (!QDir().mkpath(copiesFolder(notebook)))
        return Error { Trouble::ReadOnly, Words::tr("The folder for copies cannot be made."), copiesFolder(notebook) };
    return Done {};
}

QString copyName(const QString& notebook, const QString& ending)
{
    const QString stem = QFileInfo(notebook).completeBaseName();
    return QDir(copiesFolder(notebook)).filePath(QStringLiteral("%1-%2.washfast").arg(stem, ending));
}

/// The daily copies, the oldest first.
QStringList dailyCopies(const QString& notebook)
{
    const QDir folder(copiesFolder(notebook));
    QStringList daily;
    for (const auto& name : folder.entryList(QDir::Files, QDir::Name)) {
        const QString path = folder.filePath(name);
        const auto day = QDate::fromString(name.chopped(int(qstrlen(".washfast"))).right(10), Qt::ISODate);
        if (day.isValid() && path == copyName(notebook, day.toString(Qt::ISODate)))
            daily << path; // names end in the day, so that the order of names is the order of days
    }
    return daily;
}

/// What copies that were broken off have left, except those that may still be being written.
void removeLeftParts(const QString& notebook)
{
    const QDir folder(copiesFolder(notebook));
    const auto yesterday = QDateTime::currentDateTimeUtc().addDays(-1);
    for (const auto& part : folder.entryInfoList({ QLatin1Char('*') + partEnding }, QDir::Files))
        if (part.lastModified() < yesterday)
            QFile::remove(part.filePath());
}

} // namespace

QString copiesFolder(const QString& notebook)
{
    return notebook + QStringLiteral(".copies");
}

Result<QString> makeDailyCopy(const QString& notebook, const QDate& today, int keep)
{
    if (auto done = makeFolder(notebook); !done)
        return done.error();
    const QString target = copyName(notebook, today.toString(Qt::ISODate));
    if (!QFile::exists(target))
        if (auto done = copyWhole(notebook, target); !done)
            return done.error();
    auto daily = dailyCopies(notebook);
    while (daily.size() > std::max(keep, 1))
        QFile::remove(daily.takeFirst());
    removeLeftParts(notebook);
    return target;
}

namespace {

/// A copy whose name no copy has yet: an older one stays, since somebody may have gone back to it and come here again.
Result<QString> copyApart(const QString& notebook, const QString& ending)
{
    if (auto done = makeFolder(notebook); !done)
        return done.error();
    QString target = copyName(notebook, ending);
    for (int next = 2; QFile::exists(target); ++next)
        target = copyName(notebook, QStringLiteral("%1-%2").arg(ending).arg(next));
    if (auto done = copyWhole(notebook, target); !done)
        return done.error();
    return target;
}

} // namespace

Result<QString> copyBeforeMigration(const QString& notebook, int schema)
{
    return copyApart(notebook, QStringLiteral("schema-%1").arg(schema));
}

Result<QString> copyBeforeMerge(const QString& notebook)
{
    return copyApart(notebook, QStringLiteral("before-merge"));
}

} // namespace washfast::store
