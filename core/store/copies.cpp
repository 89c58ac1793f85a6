#include "core/store/copies.h"

#include "core/store/connection.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QFileInfo>

namespace washfast::store {

namespace {

QString tr(const char* text)
{
    return QCoreApplication::translate("Store", text);
}

/// Writes a whole copy under a passing name first, so that a copy with its proper name is always whole.
Outcome copyWhole(const QString& notebook, const QString& target)
{
    auto connection = Connection::open(notebook, Connection::Mode::ReadOnly);
    if (!connection)
        return connection.error();
    const QString part = target + QStringLiteral(".part");
    QFile::remove(part);
    auto statement = (*connection)->prepare("VACUUM INTO ?");
    if (!statement)
        return statement.error();
    statement->bind(0, part);
    if (auto done = statement->run(); !done) {
        QFile::remove(part);
        return done.error();
    }
    QFile::remove(target);
    if (!QFile::rename(part, target))
        return Error { Trouble::ReadOnly, tr("The copy could not be put in its place."), target };
    return Done {};
}

Outcome makeFolder(const QString& notebook)
{
    if (!QDir().mkpath(copiesFolder(notebook)))
        return Error { Trouble::ReadOnly, tr("The folder for copies cannot be made."), copiesFolder(notebook) };
    return Done {};
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
    const QDir folder(copiesFolder(notebook));
    const QString stem = QFileInfo(notebook).completeBaseName();
    const QString target = folder.filePath(stem + QLatin1Char('-') + today.toString(Qt::ISODate) + QStringLiteral(".washfast"));
    if (!QFile::exists(target))
        if (auto done = copyWhole(notebook, target); !done)
            return done.error();
    // Names end in the date, so that the order of names is the order of days.
    auto daily = folder.entryList({ stem + QStringLiteral("-[12][0-9]*.washfast") }, QDir::Files, QDir::Name);
    while (daily.size() > keep)
        QFile::remove(folder.filePath(daily.takeFirst()));
    return target;
}

Result<QString> copyBeforeMigration(const QString& notebook, int schema)
{
    if (auto done = makeFolder(notebook); !done)
        return done.error();
    const QString target = QDir(copiesFolder(notebook))
                               .filePath(QFileInfo(notebook).completeBaseName() + QStringLiteral("-schema-%1.washfast").arg(schema));
    if (auto done = copyWhole(notebook, target); !done)
        return done.error();
    return target;
}

} // namespace washfast::store
