#include "core/store/copies.h"

#include "core/store/soundness.h"
#include "core/store/to_read.h"
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

/// Error Damaged when a file is not sound.
Outcome mustBeSound(const QString& path)
{
    const auto look = wholeLook(path);
    if (!look)
        return look.error();
    if (look->damaged())
        return damaged(look->fault, path);
    return look->finished
        ? Outcome(Done {})
        : Error { Trouble::Busy, Words::tr("The file could not be looked through; another program holds it."), path };
}

/// Writes a whole copy under a passing name first, so that a copy with its proper name is always whole and sound.
Outcome copyWhole(const QString& notebook, const QString& target)
{
    auto reading = openToRead(notebook);
    if (!reading)
        return reading.error();
    // The passing name is nobody else's: two windows may make the day's copy at the same time.
    const QString part = target + QLatin1Char('.') + QUuid::createUuid().toString(QUuid::WithoutBraces) + partEnding;
    auto done = reading->connection->copyInto(part);
    if (done && !reading->stillTheSame())
        done = Error { Trouble::Busy, Words::tr("Another program is writing to the notebook. Try again in a moment."),
            notebook };
    if (done)
        done = mustBeSound(part);
    if (!done) {
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
    const bool fresh = !QFile::exists(target);
    if (fresh) {
        if (auto done = mustBeSound(notebook); !done)
            return done.error();
        if (auto done = copyWhole(notebook, target); !done)
            return done.error();
    }
    auto daily = dailyCopies(notebook);
    if (daily.size() > std::max(keep, 1)) {
        // What has just been made has been looked through, and so has the notebook before it.
        if (!fresh || daily.last() != target)
            for (const auto& file : { notebook, daily.last() })
                if (auto done = mustBeSound(file); !done)
                    return done.error();
        while (daily.size() > std::max(keep, 1))
            QFile::remove(daily.takeFirst());
    }
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

namespace {

/// All copies, the newest first.
QStringList allCopies(const QString& notebook)
{
    QStringList copies;
    const QDir folder(copiesFolder(notebook));
    for (const auto& copy : folder.entryInfoList({ QStringLiteral("*.washfast") }, QDir::Files, QDir::Time))
        copies << copy.filePath();
    return copies;
}

bool isSoundNotebook(const QString& path, const std::stop_token& stop)
{
    const auto reading = openToRead(path);
    if (!reading)
        return false;
    const auto mark = reading->connection->integer("PRAGMA application_id");
    return mark.ok() && *mark == applicationId && wholeLook(*reading->connection, stop).sound();
}

} // namespace

std::optional<QString> newestSoundCopy(const QString& notebook, const std::stop_token& stop)
{
    for (const auto& copy : allCopies(notebook)) {
        if (stop.stop_requested())
            break;
        if (isSoundNotebook(copy, stop))
            return copy;
    }
    return std::nullopt;
}

QString wayOut(const QString& notebook, const std::stop_token& stop)
{
    const auto copies = allCopies(notebook);
    if (copies.isEmpty())
        return Words::tr("There is no copy of it in the folder %1.").arg(copiesFolder(notebook));
    if (const auto copy = newestSoundCopy(notebook, stop))
        return Words::tr("The newest sound copy is %1 in the folder %2. Copy it to another place and go on with it.")
            .arg(QFileInfo(*copy).fileName(), copiesFolder(notebook));
    return copies.size() == 1
        ? Words::tr("The one copy in the folder %1 is damaged as well.").arg(copiesFolder(notebook))
        : Words::tr("None of the %n copies in the folder %1 is sound.", nullptr, int(copies.size()))
              .arg(copiesFolder(notebook));
}

QString whereCopiesAre(const QString& notebook)
{
    return Words::tr("Copies of it are in the folder %1.").arg(copiesFolder(notebook));
}

} // namespace washfast::store
