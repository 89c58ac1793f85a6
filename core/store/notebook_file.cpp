#include "core/store/notebook_file.h"

#include "core/store/copies.h"
#include "core/store/reading.h"
#include "core/store/rows.h"
#include "core/store/soundness.h"
#include "core/store/words.h"

#include <QDateTime>
#include <QFile>
#include <QFileInfo>
#include <QUuid>
#include <algorithm>
#include <set>

namespace washfast::store {

namespace {

enum class Looks { Missing, Empty, Notebook, CutOff, Other, Unreadable };

/// Big-endian, as everything in SQLite's header.
quint32 numberAt(const QByteArray& head, qsizetype from, qsizetype count)
{
    quint32 number = 0;
    for (qsizetype i = from; i < from + count; ++i)
        number = (number << 8) | quint8(head[i]);
    return number;
}

/// Reads the first bytes only, so that a file that is something else is left untouched. The file format: "SQLite format
/// 3", the size of a page at byte 16 (1 means 65536), the application id at byte 68 (sqlite.org/fileformat2.html,
/// section 1.3).
Looks lookAt(const QString& path)
{
    QFile file(path);
    if (!file.exists())
        return Looks::Missing;
    if (!QFileInfo(path).isFile())
        return Looks::Other; // a folder, or a pipe that would never end
    const auto id = fileIdOf(path);
    auto held = id ? file_locks::peek(*id, 0, 100) : std::nullopt; // a notebook that is open here is not opened again
    if (!held && !file.open(QIODevice::ReadOnly))
        return Looks::Unreadable;
    const QByteArray head = held ? *held : file.read(100);
    if (head.isEmpty())
        return Looks::Empty;
    if (head.size() < 100 || !head.startsWith(QByteArray("SQLite format 3\0", 16))
        || numberAt(head, 68, 4) != quint32(applicationId))
        return Looks::Other;
    // SQLite itself does not mind when a part of the last page is missing. While there is a log, it can make it whole.
    const auto page = numberAt(head, 16, 2) == 1 ? 65536 : qint64(numberAt(head, 16, 2));
    const bool has_log
        = QFile::exists(path + QStringLiteral("-wal")) || QFile::exists(path + QStringLiteral("-journal"));
    if (!has_log && (page == 0 || file.size() % page != 0))
        return Looks::CutOff;
    return Looks::Notebook;
}

bool placeIsWritable(const QString& path, bool exists)
{
    const QFileInfo file(path);
    return QFileInfo(file.absolutePath()).isWritable() && (!exists || file.isWritable());
}

} // namespace

Result<std::unique_ptr<NotebookFile>> NotebookFile::open(
    const QString& path, const Catalogue& catalogue, const OpenOptions& options)
{
    const auto looks = lookAt(path);
    const bool fresh = looks == Looks::Missing || looks == Looks::Empty;
    if (looks == Looks::Other)
        return Error { Trouble::NotANotebook,
            Words::tr("This file is not a Washfast notebook. It has been left as it is."), path };
    if (looks == Looks::Unreadable)
        return Error { Trouble::ReadOnly, Words::tr("This file may not be read."), path };
    if (fresh && !options.create)
        return Error { Trouble::NotFound, Words::tr("There is no notebook here."), path };
    const bool writable = !options.only_read && placeIsWritable(path, !fresh);
    if (fresh && !writable)
        return Error { Trouble::ReadOnly,
            Words::tr("A notebook cannot be made here: the folder may not be written or does not exist."), path };

    std::unique_ptr<NotebookFile> file(new NotebookFile(path, catalogue));
    file->options_ = options;
    file->window_ = options.window;
    file->name_copy_ = options.name_copy;
    if (looks == Looks::CutOff)
        return file->told(damaged(Words::tr("it ends too early"), path));
    if (!writable)
        file->access_ = Access::ReadOnlyPlace;
    if (auto done = file->connect(options, fresh); !done) {
        const auto error = file->told(done.error());
        file.reset();
        if (looks == Looks::Missing && QFileInfo(path).size() == 0)
            QFile::remove(path);
        return error;
    }
    return file;
}

Outcome NotebookFile::prepare(const OpenOptions& options, bool fresh)
{
    const int newest = options.migrations.empty() ? 0 : options.migrations.back().to;
    if (fresh) {
        // The mark comes before the log of WAL: a program that dies from here on leaves a notebook, though an empty
        // one.
        const auto mark = "PRAGMA application_id = " + QByteArray::number(applicationId);
        if (auto done = connection_->script(mark); !done)
            return done;
    }
    if (auto done = readSchema(); !done)
        return done;
    schema_of_file_ = schema_;
    if (schema_ > newest) {
        access_ = access_ == Access::ReadWrite ? Access::ReadOnlyTooNew : access_;
        if (auto done = connection_->script("PRAGMA query_only = ON"); !done)
            return done;
    }
    if (access_ == Access::ReadWrite) {
        if (auto done
            = connection_->script("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
            !done)
            return done;
        if (schema_ < newest)
            if (auto done = upgrade(options); !done)
                return done;
        schema_of_file_ = schema_;
    } else if (schema_ == 0) {
        return Error { Trouble::Damaged, Words::tr("The notebook is empty."), path_ };
    } else if (schema_ < newest) {
        if (auto done = readUpgraded(options); !done)
            return done;
    }
    if (auto done = findColumns(schema_ <= newest && !damage_); !done)
        return done;
    (void)changedElsewhere();
    return followSteps();
}

Outcome NotebookFile::readSchema()
{
    const auto version = connection_->integer("PRAGMA user_version");
    if (!version)
        return version.error();
    schema_ = int(*version);
    return Done {};
}

Outcome NotebookFile::upgrade(const OpenOptions& options)
{
    const auto tables = connection_->integer("SELECT count(*) FROM sqlite_schema");
    if (!tables)
        return tables.error();
    if (*tables > 0) { // there is something to lose
        const auto copy = washfast::store::copyBeforeMigration(path_, schema_);
        if (!copy)
            return copy.error();
        copy_before_migration_ = *copy;
    }
    if (auto done = migrate(*connection_, options.migrations); !done)
        return done;
    return readSchema();
}

Outcome NotebookFile::findColumns(bool all)
{
    for (const auto entity : allEntities()) {
        const auto table = entityKey(entity);
        const auto names
            = texts(connection_->prepare("SELECT name FROM pragma_table_info('" + table.toStdString() + "')"));
        if (!names)
            return names.error();
        auto& present = present_[size_t(entity)];
        for (const auto& field : catalogue_->columns(entity)) {
            if (names->contains(field.key))
                present.push_back(field.ordinal);
            else if (all)
                return Error { Trouble::Damaged,
                    Words::tr("The notebook lacks the column %1 of the table %2.").arg(field.key, table), path_ };
        }
    }
    return Done {};
}

Result<Notebook> NotebookFile::read(std::optional<SessionId> only)
{
    Notebook notebook(*catalogue_);
    // One read transaction, so that the tables and the number of the last change belong together.
    if (auto done = connection_->script("BEGIN"); !done)
        return done.error();
    const auto body = [&]() -> Outcome {
        const auto last = connection_->integer("SELECT max(id) FROM history");
        if (!last)
            return last.error();
        notebook.last_change = *last;
        for (const auto entity : allEntities())
            if (!present_[size_t(entity)].empty())
                if (auto done = readTable(*connection_, present_[size_t(entity)], entity,
                        only ? std::optional(only->value) : std::nullopt, notebook);
                    !done)
                    return done;
        return Done {};
    };
    const auto read = body();
    const auto ended = connection_->script("COMMIT");
    if (!read)
        return told(read.error());
    if (!ended)
        return ended.error();
    if (auto same = unchanged(); !same)
        return same.error();
    notebook.complete = !only;
    if (only)
        notebook.only_session = only->value;
    return notebook;
}

Result<std::optional<SessionId>> NotebookFile::latestSession()
{
    const auto id = connection_->integer("SELECT id FROM session WHERE removed = 0 ORDER BY "
                                         "coalesce(julianday(session_start), 0) DESC, id DESC LIMIT 1");
    if (!id)
        return id.error();
    return *id > 0 ? std::optional(SessionId { *id }) : std::nullopt;
}

Result<qint64> NotebookFile::performAs(const char* kind, const QString& label, const std::vector<StepWork>& steps)
{
    if (access_ == Access::ReadOnlyDamaged)
        return told({ Trouble::Damaged,
            Words::tr("Nothing is written into a damaged notebook. %1").arg(damage_ ? damage_->says : QString()),
            path_ });
    auto step = writeSteps(kind, label, steps);
    if (step || step.error().code != Trouble::Damaged || step.error().where != path_)
        return step; // not of this file
    foundDamaged(step.error());
    return told(step.error());
}

Result<qint64> NotebookFile::writeSteps(const char* kind, const QString& label, const std::vector<StepWork>& steps)
{
    if (access_ == Access::ReadOnlyTooNew)
        return Error { Trouble::ReadOnly,
            Words::tr("This notebook was written by a newer version of the program; it can be read here, not changed."),
            path_ };
    if (access_ == Access::ReadOnlyPlace)
        return Error { Trouble::ReadOnly,
            Words::tr("This notebook lies where nothing can be written; it can be read, not changed."), path_ };
    auto transaction = Transaction::begin(*connection_);
    if (!transaction)
        return transaction.error();
    qint64 last = 0;
    for (const auto& one : steps) {
        const auto step = writeStep(kind, label, one);
        if (!step)
            return step.error();
        last = std::max(last, *step);
    }
    if (last == 0)
        return qint64(0); // rolled back: nothing changed
    if (auto done = (*transaction)->commit(); !done)
        return done.error();
    (void)followSteps().ok(); // the step is on disk whatever comes now; nextUndo reads on
    return last;
}

/// Inside a transaction. Gives the step's id, 0 when nothing was changed by it.
Result<qint64> NotebookFile::writeStep(const char* kind, const QString& label, const StepWork& what)
{
    auto insert
        = connection_->prepare("INSERT INTO step(uuid, at, label, kind, target, window) VALUES (?, ?, ?, ?, ?, ?)");
    if (!insert)
        return insert.error();
    insert->bind(0, QUuid::createUuid().toString(QUuid::WithoutBraces))
        .bind(1, QDateTime::currentDateTimeUtc().toString(Qt::ISODateWithMs))
        .bind(2, label.isNull() ? QStringLiteral("") : label)
        .bind(3, std::string_view(kind));
    if (what.target > 0)
        insert->bind(4, what.target);
    insert->bind(5, window_);
    if (auto done = insert->run(); !done)
        return done.error();
    const auto step = connection_->lastId();
    Writer writer(*connection_, *catalogue_);
    if (auto done = what.work(writer); !done)
        return done.error();
    if (!connection_->inTransaction()) // SQLite takes everything back by itself when the disk is full
        return Error { Trouble::Failed, Words::tr("The step was broken off; nothing of it was saved."), path_ };
    const auto written
        = connection_->integer("SELECT EXISTS (SELECT 1 FROM history WHERE step = (SELECT max(id) FROM step))");
    if (!written)
        return written.error();
    auto close = connection_->prepare("UPDATE step SET closed = 1 WHERE id = ?");
    if (!close)
        return close.error();
    close->bind(0, step);
    if (auto done = close->run(); !done)
        return done.error();
    return *written == 0 ? qint64(0) : step;
}

Result<qint64> NotebookFile::perform(const QString& label, const std::function<Outcome(Writer&)>& work, qint64 run)
{
    return step("edit", label, { { run, work } });
}

Result<qint64> NotebookFile::performOrigin(const QString& label, const std::function<Outcome(Writer&)>& work)
{
    return step("origin", label, { { 0, work } });
}

bool NotebookFile::changedElsewhere()
{
    const auto version = connection_->integer("PRAGMA data_version");
    if (!version || *version == data_version_)
        return false;
    data_version_ = *version;
    return true;
}

Result<QByteArray> NotebookFile::photo(PhotoId photo)
{
    auto statement = connection_->prepare("SELECT data FROM photo_data WHERE photo = ?");
    if (!statement)
        return statement.error();
    statement->bind(0, photo.value);
    const auto row = statement->step();
    if (!row)
        return row.error();
    if (!*row)
        return Error { Trouble::NotFound, Words::tr("The notebook has no such photo."), {} };
    return statement->blobBytes(0);
}

Result<QString> NotebookFile::setting(const QString& key)
{
    auto statement = connection_->prepare("SELECT value FROM setting WHERE key = ?");
    if (!statement)
        return statement.error();
    statement->bind(0, key);
    const auto row = statement->step();
    if (!row)
        return row.error();
    return *row ? statement->text(0) : QString();
}

Outcome NotebookFile::setSetting(const QString& key, const QString& value)
{
    if (!writable())
        return Error { Trouble::ReadOnly, Words::tr("This notebook can be read, not changed."), path_ };
    if (auto firm = standFirm(); !firm)
        return firm;
    auto statement = connection_->prepare(
        "INSERT INTO setting(key, value) VALUES (?, ?) ON CONFLICT(key) DO UPDATE SET value = excluded.value");
    if (!statement)
        return statement.error();
    return statement->bind(0, key).bind(1, value).run();
}

Result<QString> NotebookFile::integrity()
{
    const auto look = wholeLook(*connection_);
    return look.damaged() ? look.fault : QStringLiteral("ok");
}

Outcome NotebookFile::copyTo(const QString& path)
{
    if (isSameFile(path, path_))
        return Error { Trouble::BadInput, Words::tr("This is the notebook itself. Choose another name for the copy."),
            path };
    if (access_ == Access::ReadOnlyDamaged)
        return told({ Trouble::Damaged,
            Words::tr("A damaged notebook is not copied: entries could be missing in the copy."), path_ });
    return connection_->copyInto(path);
}

} // namespace washfast::store
