// One connection to a notebook's SQLite file and its prepared statements. The connection is opened through Qt Sql,
// which brings the driver and names it; statements go to the handle beneath, because a whole script, typed errors and
// the reading of 100,000 rows need it (DEVELOPERS.md gives the measurement). Everything that speaks SQL is in
// core/store.
#pragma once

#include "core/quantity/result.h"
#include "core/quantity/value.h"
#include "core/store/file_hold.h"
#include "core/store/guard.h"

#include <QSqlDatabase>
#include <memory>
#include <string>
#include <unordered_map>

struct sqlite3;
struct sqlite3_stmt;

namespace washfast::store {

/// A bare SQLite value, as the history keeps it.
using Raw = std::variant<std::monostate, qint64, double, std::string>;

/// Says that a file is not sound. What opens or reads a notebook adds which copy is (copies.h).
[[nodiscard]] Error damaged(const QString& how, const QString& path);

class Connection;

/// A prepared statement; parameters and columns count from 0. Reset when it goes out of scope, so that it can be used
/// again.
class Statement {
public:
    Statement(Connection& connection, sqlite3_stmt* statement);
    Statement(Statement&& other) noexcept;
    Statement(const Statement&) = delete;
    Statement& operator=(const Statement&) = delete;
    Statement& operator=(Statement&&) = delete;
    ~Statement();

    Statement& null(int at);
    Statement& bind(int at, qint64 value);
    Statement& bind(int at, double value);
    Statement& bind(int at, const QString& value);
    Statement& bind(int at, std::string_view value);
    Statement& bind(int at, const Raw& value);
    Statement& blob(int at, const QByteArray& value); // the bytes must live until the step

    /// True while there is a row.
    [[nodiscard]] Result<bool> step();
    /// Runs a statement that gives no rows.
    [[nodiscard]] Outcome run();
    void reset();

    [[nodiscard]] bool isNull(int column) const;
    [[nodiscard]] qint64 integer(int column) const;
    [[nodiscard]] double real(int column) const;
    [[nodiscard]] std::string_view bytes(int column) const; // valid until the next step
    [[nodiscard]] QString text(int column) const; // null when NULL
    [[nodiscard]] QByteArray blobBytes(int column) const;
    [[nodiscard]] Raw raw(int column) const;

private:
    Connection* connection_;
    sqlite3_stmt* statement_;
};

class Connection {
public:
    enum class Mode { ReadWrite, ReadOnly, Immutable };
    [[nodiscard]] static Result<std::unique_ptr<Connection>> open(
        const QString& path, Mode mode, int busy_timeout_ms = 4000);
    ~Connection();
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;

    /// Any number of statements without parameters.
    [[nodiscard]] Outcome script(const QByteArray& sql);
    /// A statement, prepared once and kept.
    [[nodiscard]] Result<Statement> prepare(const std::string& sql);
    /// Writes all that is in the file into a new one (VACUUM INTO).
    [[nodiscard]] Outcome copyInto(const QString& path);
    [[nodiscard]] Result<qint64> integer(const std::string& sql);
    [[nodiscard]] Result<QString> text(const std::string& sql);
    [[nodiscard]] qint64 lastId() const;
    [[nodiscard]] int rowsChanged() const;
    /// What SQLite says last went wrong.
    [[nodiscard]] Error lastError() const;
    [[nodiscard]] QString detail() const; // in SQLite's own few words
    [[nodiscard]] bool inTransaction() const;
    /// How long one step may take.
    [[nodiscard]] Patience& patience() { return *patience_; }
    [[nodiscard]] sqlite3* handle() { return handle_; }
    [[nodiscard]] const QString& path() const { return path_; }
    /// Whether file, log and locks are still those that this connection works with.
    [[nodiscard]] FileHold& hold() { return *hold_; }

private:
    Connection(QString name, QString path);
    QString name_;
    QString path_;
    sqlite3* handle_ = nullptr;
    std::unique_ptr<Patience> patience_;
    std::unique_ptr<FileHold> hold_;
    std::unordered_map<std::string, sqlite3_stmt*> prepared_;
};

/// While it lives, a step on the connection may take so many seconds of the processor, or as long as it takes.
class Unhurried {
public:
    explicit Unhurried(Connection& connection, std::optional<double> most_s = std::nullopt)
        : patience_(connection.patience())
        , before_(patience_.allowed())
    {
        patience_.allow(most_s);
    }
    ~Unhurried() { patience_.allow(before_); }
    Unhurried(const Unhurried&) = delete;
    Unhurried& operator=(const Unhurried&) = delete;

private:
    Patience& patience_;
    std::optional<double> before_;
};

/// BEGIN IMMEDIATE now, ROLLBACK at the end of the scope unless committed.
class Transaction {
public:
    [[nodiscard]] static Result<std::unique_ptr<Transaction>> begin(Connection& connection);
    ~Transaction();
    /// Error Lost, and nothing is written, when file, log or locks are not ours any more.
    [[nodiscard]] Outcome commit();

private:
    explicit Transaction(Connection& connection)
        : connection_(connection)
    {
    }
    Connection& connection_;
    bool open_ = true;
};

} // namespace washfast::store
