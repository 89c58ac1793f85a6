// Another program on the same file: a bare connection of the SQLite C interface, and the sqlite3 command.
#pragma once

#include <QProcess>
#include <QStringList>
#include <sqlite3.h>
#include <stdexcept>

namespace washfast::test {

class Outside {
public:
    explicit Outside(const QString& path)
    {
        if (sqlite3_open(path.toUtf8().constData(), &handle_) != SQLITE_OK)
            throw std::runtime_error(sqlite3_errmsg(handle_));
        sqlite3_busy_timeout(handle_, 4000);
    }
    ~Outside() { sqlite3_close(handle_); }
    Outside(const Outside&) = delete;
    Outside& operator=(const Outside&) = delete;

    /// What SQLite says is wrong; empty when it ran.
    [[nodiscard]] std::string complaint(const char* sql)
    {
        return sqlite3_exec(handle_, sql, nullptr, nullptr, nullptr) == SQLITE_OK
            ? std::string()
            : std::string(sqlite3_errmsg(handle_));
    }
    void run(const char* sql)
    {
        if (const auto wrong = complaint(sql); !wrong.empty())
            throw std::runtime_error(wrong + " in " + sql);
    }
    /// All rows, the columns separated by bars; NULL is written so.
    [[nodiscard]] QStringList rows(const char* sql)
    {
        QStringList found;
        const auto take = [](void* to, int count, char** values, char**) {
            QStringList row;
            for (int i = 0; i < count; ++i)
                row << (values[i] ? QString::fromUtf8(values[i]) : QStringLiteral("NULL"));
            *static_cast<QStringList*>(to) << row.join(QLatin1Char('|'));
            return 0;
        };
        if (sqlite3_exec(handle_, sql, take, &found, nullptr) != SQLITE_OK)
            throw std::runtime_error(sqlite3_errmsg(handle_));
        return found;
    }
    [[nodiscard]] QString row(const char* sql) { return rows(sql).value(0); }

private:
    sqlite3* handle_ = nullptr;
};

/// What the sqlite3 command (Debian package sqlite3) prints.
inline QStringList sqlite3Command(const QString& path, const char* sql)
{
    QProcess process;
    process.start(QStringLiteral("sqlite3"), { QStringLiteral("-batch"), path, QString::fromUtf8(sql) });
    if (!process.waitForStarted())
        throw std::runtime_error("the sqlite3 command is not installed (Debian package sqlite3)");
    process.waitForFinished();
    if (process.exitCode() != 0)
        throw std::runtime_error(process.readAllStandardError().toStdString());
    return QString::fromUtf8(process.readAllStandardOutput()).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
}

#ifdef WASHFAST_PROGRAM
/// Runs the program itself in a process of its own: "done", or what it says is wrong.
inline std::string runWashfast(const QStringList& words)
{
    QProcess process;
    process.start(QStringLiteral(WASHFAST_PROGRAM), words);
    if (!process.waitForFinished() || process.exitStatus() != QProcess::NormalExit)
        throw std::runtime_error("the program did not run");
    return process.exitCode() == 0 ? "done" : process.readAllStandardError().toStdString();
}
#endif

} // namespace washfast::test
