#include "core/store/notebook_file.h"

#include "core/store/copies.h"
#include "core/store/reading.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QFile>
#include <QFileInfo>
#include <QUuid>
#include <algorithm>
#include <set>

namespace washfast::store {

namespace {

QString tr(const char* text)
{
    return QCoreApplication::translate("Store", text);
}

enum class Looks { Missing, Empty, Notebook, Other, Unreadable };

/// Reads the first bytes only, so that a file that is something else is left untouched. The file format: "SQLite format 3"
/// and, at byte 68, the application id, big-endian (sqlite.org/fileformat2.html).
Looks lookAt(const QString& path)
{
    QFile file(path);
    if (!file.exists())
        return Looks::Missing;
    if (QFileInfo(path).isDir())
        return Looks::Other;
    if (!file.open(QIODevice::ReadOnly))
        return Looks::Unreadable;
    const QByteArray head = file.read(100);
    if (head.isEmpty())
        return Looks::Empty;
    if (head.size() < 100 || !head.startsWith(QByteArray("SQLite format 3\0", 16)))
        return Looks::Other;
    qint32 id = 0;
    for (qsizetype i = 68; i < 72; ++i)
        id = qint32((quint32(id) << 8) | quint8(head[i]));
    return id == applicationId ? Looks::Notebook : Looks::Other;
}

bool placeIsWritable(const QString& path, bool exists)
{
    const QFileInfo file(path);
    return QFileInfo(file.absolutePath()).isWritable() && (!exists || file.isWritable());
}

} // namespace

Result<std::unique_ptr<NotebookFile>> NotebookFile::open(const QString& path, const Catalogue& catalogue, const OpenOptions& options)
{
    const auto looks = lookAt(path);
    const bool fresh = looks == Looks::Missing || looks == Looks::Empty;
    if (looks == Looks::Other)
        return Error { Trouble::NotANotebook, tr("This file is not a Washfast notebook. It has been left as it is."), path };
    if (looks == Looks::Unreadable)
        return Error { Trouble::ReadOnly, tr("This file may not be read."), path };
    if (fresh && !options.create)
        return Error { Trouble::NotFound, tr("There is no notebook here."), path };
    const bool writable = placeIsWritable(path, !fresh);
    if (fresh && !writable)
        return Error { Trouble::ReadOnly, tr("A notebook cannot be made here: the folder may not be written or does not exist."), path };

    std::unique_ptr<NotebookFile> file(new NotebookFile(path, catalogue));
    file->window_ = options.window;
    // With the side files of another, living connection a plain read-only opening works; without them only an immutable one.
    const auto mode = writable ? Connection::Mode::ReadWrite
        : QFile::exists(path + QStringLiteral("-wal")) ? Connection::Mode::ReadOnly
                                                       : Connection::Mode::Immutable;
    auto connection = Connection::open(path, mode);
    if (!connection)
        return connection.error();
    file->connection_ = std::move(connection).value();
    if (!writable)
        file->access_ = Access::ReadOnlyPlace;
    if (auto done = file->prepare(options, fresh); !done) {
        file.reset();
        if (looks == Looks::Missing && QFileInfo(path).size() == 0)
            QFile::remove(path);
        return done.error();
    }
    return file;
}

Outcome NotebookFile::prepare(const OpenOptions& options, bool fresh)
{
    const int newest = options.migrations.empty() ? 0 : options.migrations.back().to;
    const auto version = connection_->integer("PRAGMA user_version");
    if (!version)
        return version.error();
    schema_ = int(*version);
    if (schema_ > newest) {
        access_ = access_ == Access::ReadOnlyPlace ? access_ : Access::ReadOnlyTooNew;
        if (auto done = connection_->script("PRAGMA query_only = ON"); !done)
            return done;
    }
    if (access_ == Access::ReadWrite) {
        if (auto done = connection_->script("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;"); !done)
            return done;
        if (schema_ < newest) {
            if (!fresh) {
                const auto copy = washfast::store::copyBeforeMigration(path_, schema_);
                if (!copy)
                    return copy.error();
                copy_before_migration_ = *copy;
            }
            if (auto done = migrate(*connection_, options.migrations); !done)
                return done;
            schema_ = newest;
        }
    } else if (schema_ < newest && access_ == Access::ReadOnlyPlace && schema_ == 0) {
        return Error { Trouble::Damaged, tr("The notebook is empty."), path_ };
    }
    if (auto done = findColumns(); !done)
        return done;
    (void)changedElsewhere();
    return followSteps();
}

Outcome NotebookFile::findColumns()
{
    for (const auto entity : allEntities()) {
        const auto table = entityKey(entity);
        auto statement = connection_->prepare("SELECT name FROM pragma_table_info('" + table.toStdString() + "')");
        if (!statement)
            return statement.error();
        std::set<QString> names;
        for (;;) {
            const auto row = statement->step();
            if (!row)
                return row.error();
            if (!*row)
                break;
            names.insert(statement->text(0));
        }
        auto& present = present_[size_t(entity)];
        for (const auto& field : catalogue_->columns(entity)) {
            if (names.contains(field.key))
                present.push_back(field.ordinal);
            else if (access_ == Access::ReadWrite)
                return Error { Trouble::Damaged, tr("The notebook lacks the column %1 of the table %2.").arg(field.key, table), path_ };
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
        return read.error();
    if (!ended)
        return ended.error();
    notebook.complete = !only;
    if (only)
        notebook.only_session = only->value;
    return notebook;
}

Result<std::optional<SessionId>> NotebookFile::latestSession()
{
    const auto id = connection_->integer(
        "SELECT id FROM session WHERE removed = 0 ORDER BY coalesce(julianday(session_start), 0) DESC, id DESC LIMIT 1");
    if (!id)
        return id.error();
    return *id > 0 ? std::optional(SessionId { *id }) : std::nullopt;
}

Result<qint64> NotebookFile::performAs(const char* kind, qint64 target, const QString& label, const std::function<Outcome(Writer&)>& work)
{
    if (access_ == Access::ReadOnlyTooNew)
        return Error { Trouble::ReadOnly, tr("This notebook was written by a newer version of the program; it can be read here, not changed."), path_ };
    if (access_ == Access::ReadOnlyPlace)
        return Error { Trouble::ReadOnly, tr("This notebook lies where nothing can be written; it can be read, not changed."), path_ };
    auto transaction = Transaction::begin(*connection_);
    if (!transaction)
        return transaction.error();
    auto insert = connection_->prepare("INSERT INTO step(uuid, at, label, kind, target, window) VALUES (?, ?, ?, ?, ?, ?)");
    if (!insert)
        return insert.error();
    insert->bind(0, QUuid::createUuid().toString(QUuid::WithoutBraces))
        .bind(1, QDateTime::currentDateTimeUtc().toString(Qt::ISODateWithMs))
        .bind(2, label.isNull() ? QStringLiteral("") : label)
        .bind(3, std::string_view(kind));
    if (target > 0)
        insert->bind(4, target);
    insert->bind(5, window_);
    if (auto done = insert->run(); !done)
        return done.error();
    const auto step = connection_->lastId();
    Writer writer(*connection_, *catalogue_);
    if (auto done = work(writer); !done)
        return done.error();
    const auto written = connection_->integer("SELECT EXISTS (SELECT 1 FROM history WHERE step = (SELECT max(id) FROM step))");
    if (!written)
        return written.error();
    if (*written == 0)
        return qint64(0); // rolled back: nothing changed
    auto close = connection_->prepare("UPDATE step SET closed = 1 WHERE id = ?");
    if (!close)
        return close.error();
    close->bind(0, step);
    if (auto done = close->run(); !done)
        return done.error();
    if (auto done = (*transaction)->commit(); !done)
        return done.error();
    if (auto done = followSteps(); !done)
        return done.error();
    return step;
}

Result<qint64> NotebookFile::perform(const QString& label, const std::function<Outcome(Writer&)>& work)
{
    return performAs("edit", 0, label, work);
}

Result<qint64> NotebookFile::performOrigin(const QString& label, const std::function<Outcome(Writer&)>& work)
{
    return performAs("origin", 0, label, work);
}

Outcome NotebookFile::followSteps()
{
    // The newest thousand steps are enough to walk back along.
    auto statement = connection_->prepare("SELECT id, kind, coalesce(target, 0), label, window FROM step "
                                          "WHERE id > ? AND id > (SELECT coalesce(max(id), 0) FROM step) - 1000 ORDER BY id");
    if (!statement)
        return statement.error();
    statement->bind(0, stack_.last());
    for (;;) {
        const auto row = statement->step();
        if (!row)
            return row.error();
        if (!*row)
            return Done {};
        stack_.follow(statement->integer(0), statement->text(1), statement->integer(2), statement->text(3), statement->text(4));
    }
}

Result<std::optional<StepInfo>> NotebookFile::nextUndo()
{
    if (auto done = followSteps(); !done)
        return done.error();
    return stack_.nextUndo();
}

Result<std::optional<StepInfo>> NotebookFile::nextRedo()
{
    if (auto done = followSteps(); !done)
        return done.error();
    return stack_.nextRedo();
}

Outcome NotebookFile::reverse(qint64 step, bool forward, const QString& label)
{
    std::vector<HistoryEntry> entries;
    {
        auto statement = connection_->prepare("SELECT entity, row, field, old, new FROM history WHERE step = ? ORDER BY id");
        if (!statement)
            return statement.error();
        statement->bind(0, step);
        for (;;) {
            const auto row = statement->step();
            if (!row)
                return row.error();
            if (!*row)
                break;
            HistoryEntry entry;
            entry.row = { entityFromKey(statement->text(0)).value_or(Entity::Print), statement->integer(1) };
            entry.field = statement->text(2);
            entry.old_value = statement->raw(3);
            entry.new_value = statement->raw(4);
            entries.push_back(entry);
        }
    }
    if (!forward)
        std::reverse(entries.begin(), entries.end());
    const auto done = performAs(forward ? "redo" : "undo", step, label, [&](Writer& writer) -> Outcome {
        for (const auto& entry : entries) {
            const bool added = entry.field.isEmpty();
            const QString field = added ? QStringLiteral("removed") : entry.field;
            // A row that was added in the step is hidden by undo and shown again by redo.
            const Raw before = added ? Raw(qint64(1)) : entry.old_value;
            const Raw after = added ? Raw(qint64(0)) : entry.new_value;
            if (auto set = writer.setRaw(entry.row, field, forward ? after : before, forward ? before : after); !set)
                return set;
        }
        return Done {};
    });
    if (!done)
        return done.error();
    return Done {};
}

Outcome NotebookFile::undo()
{
    const auto next = nextUndo();
    if (!next)
        return next.error();
    if (!*next)
        return Error { Trouble::NotFound, tr("There is nothing to undo."), {} };
    return reverse((*next)->id, false, tr("Undo: %1").arg((*next)->label));
}

Outcome NotebookFile::redo()
{
    const auto next = nextRedo();
    if (!next)
        return next.error();
    if (!*next)
        return Error { Trouble::NotFound, tr("There is nothing to redo."), {} };
    return reverse((*next)->id, true, tr("Redo: %1").arg((*next)->label));
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
        return Error { Trouble::NotFound, tr("The notebook has no such photo."), {} };
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
        return Error { Trouble::ReadOnly, tr("This notebook can be read, not changed."), path_ };
    auto statement = connection_->prepare("INSERT INTO setting(key, value) VALUES (?, ?) ON CONFLICT(key) DO UPDATE SET value = excluded.value");
    if (!statement)
        return statement.error();
    return statement->bind(0, key).bind(1, value).run();
}

Result<QString> NotebookFile::integrity()
{
    return connection_->text("PRAGMA integrity_check");
}

Outcome NotebookFile::copyTo(const QString& path)
{
    auto statement = connection_->prepare("VACUUM INTO ?");
    if (!statement)
        return statement.error();
    return statement->bind(0, path).run();
}

} // namespace washfast::store
