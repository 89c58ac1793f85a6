#include "core/store/connection.h"

#include "core/store/words.h"

#include <QSqlDriver>
#include <QSqlError>
#include <QUrl>
#include <QUuid>
#include <QVariant>
#include <cerrno>
#include <cmath>
#include <sqlite3.h>

namespace washfast::store {

namespace {
QString fullDisk()
{
    return Words::tr("The disk is full. What was written before is safe; this last entry was not saved.");
}

/// Whether the last error of input and output was for want of room: a quota and a limit on the size of files come so.
bool lacksRoom(sqlite3* handle)
{
    for (const int which : { SQLITE_FCNTL_FILE_POINTER, SQLITE_FCNTL_JOURNAL_POINTER }) { // the file and its log
        sqlite3_file* file = nullptr;
        int system = 0;
        if (sqlite3_file_control(handle, "main", which, &file) == SQLITE_OK && file && file->pMethods
            && file->pMethods->xFileControl(file, SQLITE_FCNTL_LAST_ERRNO, &system) == SQLITE_OK
            && (system == ENOSPC || system == EDQUOT || system == EFBIG))
            return true;
    }
    return false;
}

} // namespace

Error damaged(const QString& how, const QString& path)
{
    return { Trouble::Damaged, Words::tr("The file is damaged (%1).").arg(how), path };
}

Statement::Statement(Connection& connection, sqlite3_stmt* statement)
    : connection_(&connection)
    , statement_(statement)
{
}

Statement::Statement(Statement&& other) noexcept
    : connection_(other.connection_)
    , statement_(std::exchange(other.statement_, nullptr))
{
}

Statement::~Statement()
{
    if (statement_) {
        sqlite3_reset(statement_);
        sqlite3_clear_bindings(statement_);
    }
}

Statement& Statement::null(int at)
{
    sqlite3_bind_null(statement_, at + 1);
    return *this;
}

Statement& Statement::bind(int at, qint64 value)
{
    sqlite3_bind_int64(statement_, at + 1, value);
    return *this;
}

Statement& Statement::bind(int at, double value)
{
    if (std::isnan(value))
        return null(at);
    sqlite3_bind_double(statement_, at + 1, value);
    return *this;
}

Statement& Statement::bind(int at, const QString& value)
{
    if (value.isNull())
        return null(at);
    const QByteArray utf8 = value.toUtf8();
    sqlite3_bind_text(statement_, at + 1, utf8.constData(), int(utf8.size()), SQLITE_TRANSIENT); // NOLINT
    return *this;
}

Statement& Statement::bind(int at, std::string_view value)
{
    sqlite3_bind_text(statement_, at + 1, value.data(), int(value.size()), SQLITE_TRANSIENT); // NOLINT
    return *this;
}

Statement& Statement::bind(int at, const Raw& value)
{
    if (const auto* integer = std::get_if<qint64>(&value))
        return bind(at, *integer);
    if (const auto* number = std::get_if<double>(&value))
        return bind(at, *number);
    if (const auto* text = std::get_if<std::string>(&value))
        return bind(at, std::string_view(*text));
    return null(at);
}

Statement& Statement::blob(int at, const QByteArray& value)
{
    sqlite3_bind_blob64(statement_, at + 1, value.constData(), sqlite3_uint64(value.size()), SQLITE_STATIC);
    return *this;
}

Result<bool> Statement::step()
{
    connection_->patience().begin();
    switch (sqlite3_step(statement_)) {
    case SQLITE_ROW:
        return true;
    case SQLITE_DONE:
        return false;
    default:
        return connection_->lastError();
    }
}

Outcome Statement::run()
{
    auto more = step();
    if (!more)
        return more.error();
    reset();
    return Done {};
}

void Statement::reset()
{
    sqlite3_reset(statement_);
}

bool Statement::isNull(int column) const
{
    return sqlite3_column_type(statement_, column) == SQLITE_NULL;
}

qint64 Statement::integer(int column) const
{
    return sqlite3_column_int64(statement_, column);
}

double Statement::real(int column) const
{
    return sqlite3_column_double(statement_, column);
}

std::string_view Statement::bytes(int column) const
{
    const auto* data = sqlite3_column_text(statement_, column);
    if (!data)
        return {};
    return { reinterpret_cast<const char*>(data), size_t(sqlite3_column_bytes(statement_, column)) };
}

QString Statement::text(int column) const
{
    if (isNull(column))
        return {};
    const auto b = bytes(column);
    const auto text = QString::fromUtf8(b.data(), qsizetype(b.size()));
    return text.isNull() ? QStringLiteral("") : text;
}

QByteArray Statement::blobBytes(int column) const
{
    const auto* data = sqlite3_column_blob(statement_, column);
    return { static_cast<const char*>(data), sqlite3_column_bytes(statement_, column) };
}

Raw Statement::raw(int column) const
{
    switch (sqlite3_column_type(statement_, column)) {
    case SQLITE_INTEGER:
        return integer(column);
    case SQLITE_FLOAT:
        return real(column);
    case SQLITE_TEXT:
        return std::string(bytes(column));
    default:
        return std::monostate {};
    }
}

Connection::Connection(QString name, QString path)
    : name_(std::move(name))
    , path_(std::move(path))
{
}

Result<std::unique_ptr<Connection>> Connection::open(const QString& path, Mode mode, int busy_timeout_ms)
{
    file_locks::install();
    if (FileHold::isLostHere(path))
        return Error { Trouble::Lost,
            Words::tr("The notebook's log was removed while it was open here. Close it here before you open it again."),
            path };
    const auto name = QStringLiteral("washfast-") + QUuid::createUuid().toString(QUuid::WithoutBraces);
    std::unique_ptr<Connection> connection(new Connection(name, path));
    {
        auto database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name);
        if (!database.isValid())
            return Error { Trouble::Failed,
                Words::tr("The SQLite driver of Qt is not installed (package libqt6sql6-sqlite)."), {} };
        QStringList options { QStringLiteral("QSQLITE_BUSY_TIMEOUT=%1").arg(busy_timeout_ms) };
        QString target = path;
        if (mode != Mode::ReadWrite)
            options << QStringLiteral("QSQLITE_OPEN_READONLY");
        if (mode == Mode::Immutable) {
            options << QStringLiteral("QSQLITE_OPEN_URI");
            target = QUrl::fromLocalFile(path).toString(QUrl::FullyEncoded) + QStringLiteral("?immutable=1");
        }
        database.setConnectOptions(options.join(QLatin1Char(';')));
        database.setDatabaseName(target);
        if (!database.open())
            return Error { Trouble::ReadOnly,
                Words::tr("The file cannot be opened: %1").arg(database.lastError().databaseText()), path };
        const QVariant handle = database.driver()->handle();
        connection->handle_ = *static_cast<sqlite3* const*>(handle.constData());
    }
    sqlite3_extended_result_codes(connection->handle_, 1);
    guard(connection->handle_);
    connection->patience_ = std::make_unique<Patience>(connection->handle_);
    connection->hold_ = std::make_unique<FileHold>(connection->handle_, path);
    return connection;
}

Connection::~Connection()
{
    for (auto& [sql, statement] : prepared_)
        sqlite3_finalize(statement);
    patience_.reset(); // while there is something to take its hands off
    if (hold_ && !hold_->isOurs()) // else SQLite may copy a log that is cut off into the file, and remove another one
        sqlite3_db_config(handle_, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
    handle_ = nullptr;
    if (auto database = QSqlDatabase::database(name_, false); database.isValid())
        database.close();
    QSqlDatabase::removeDatabase(name_);
}

Outcome Connection::script(const QByteArray& sql)
{
    patience_->begin();
    if (sqlite3_exec(handle_, sql.constData(), nullptr, nullptr, nullptr) != SQLITE_OK)
        return lastError();
    return Done {};
}

Result<Statement> Connection::prepare(const std::string& sql)
{
    auto& statement = prepared_[sql];
    if (!statement
        && sqlite3_prepare_v3(handle_, sql.c_str(), int(sql.size()), SQLITE_PREPARE_PERSISTENT, &statement, nullptr)
            != SQLITE_OK) {
        const auto error = lastError();
        prepared_.erase(sql);
        return error;
    }
    if (sqlite3_stmt_busy(statement)) // used further up: this use gets one of its own, kept under another name
        return prepare(sql + ' ');
    return Statement(*this, statement);
}

Outcome Connection::copyInto(const QString& path)
{
    const Unhurried unhurried(*this);
    const TrustedSchema trusted(handle_);
    auto statement = prepare("VACUUM INTO ?");
    if (!statement)
        return statement.error();
    return statement->bind(0, path).run();
}

Result<qint64> Connection::integer(const std::string& sql)
{
    auto statement = prepare(sql);
    if (!statement)
        return statement.error();
    const auto row = statement->step();
    if (!row)
        return row.error();
    return *row ? statement->integer(0) : qint64(0);
}

Result<QString> Connection::text(const std::string& sql)
{
    auto statement = prepare(sql);
    if (!statement)
        return statement.error();
    const auto row = statement->step();
    if (!row)
        return row.error();
    return *row ? statement->text(0) : QString();
}

qint64 Connection::lastId() const
{
    return sqlite3_last_insert_rowid(handle_);
}

int Connection::rowsChanged() const
{
    return sqlite3_changes(handle_);
}

bool Connection::inTransaction() const
{
    return sqlite3_get_autocommit(handle_) == 0;
}

QString Connection::detail() const
{
    return QString::fromUtf8(sqlite3_errmsg(handle_));
}

Error Connection::lastError() const
{
    const int code = sqlite3_extended_errcode(handle_);
    const auto says = detail();
    if (code == SQLITE_IOERR_SHMSIZE || ((code & 0xff) == SQLITE_IOERR && lacksRoom(handle_)))
        return { Trouble::NoSpace, fullDisk(), path_ };
    switch (code & 0xff) {
    case SQLITE_FULL:
        return { Trouble::NoSpace, fullDisk(), path_ };
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return { Trouble::Busy, Words::tr("Another program is writing to the notebook. Try again in a moment."),
            path_ };
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
        return { Trouble::ReadOnly, Words::tr("The notebook cannot be written here (%1).").arg(says), path_ };
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return damaged(says, path_);
    case SQLITE_INTERRUPT:
        if (patience_->ranOut())
            return { Trouble::Failed,
                Words::tr("A trigger or a view in the file does not come to an end, so this was broken off. \"washfast "
                          "check\" names those that are not Washfast's."),
                path_ };
        return { Trouble::Failed, Words::tr("Stopped."), path_ };
    case SQLITE_CONSTRAINT:
        return { Trouble::BadInput, says, {} };
    default:
        return { Trouble::Failed, Words::tr("The notebook could not be used (%1).").arg(says), path_ };
    }
}

Result<std::unique_ptr<Transaction>> Transaction::begin(Connection& connection)
{
    if (auto done = connection.script("BEGIN IMMEDIATE"); !done)
        return done.error();
    return std::unique_ptr<Transaction>(new Transaction(connection));
}

Transaction::~Transaction()
{
    if (open_ && connection_.inTransaction())
        (void)connection_.script("ROLLBACK").ok();
}

Outcome Transaction::commit()
{
    if (connection_.hold().look() != FileHold::Found::Ours)
        return Error { Trouble::Lost,
            Words::tr("The notebook was moved, replaced or cut off from its log just now. This entry was not saved."),
            {} };
    if (auto done = connection_.script("COMMIT"); !done)
        return done.error();
    open_ = false;
    return Done {};
}

} // namespace washfast::store
