// The baseline: the same statements on a file of the same schema, triggers and all, through the SQLite C interface
// alone. It prepares each statement once and binds what it has at hand; it makes no records, checks no values and
// understands nothing.
#pragma once

#include "tests/support/whole_print.h"

#include <cstdio>
#include <cstdlib>
#include <sqlite3.h>

namespace washfast::bench {

class RawNotebook {
public:
    RawNotebook(const QString& path, const Catalogue& catalogue)
        : catalogue_(catalogue)
    {
        check(sqlite3_open(path.toUtf8().constData(), &handle_));
        run("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON");
    }
    ~RawNotebook()
    {
        for (auto* statement : { begin_, step_, close_, commit_ })
            sqlite3_finalize(statement);
        for (auto* statement : inserts_)
            sqlite3_finalize(statement);
        sqlite3_close(handle_);
    }
    RawNotebook(const RawNotebook&) = delete;
    RawNotebook& operator=(const RawNotebook&) = delete;

    void run(const char* sql) { check(sqlite3_exec(handle_, sql, nullptr, nullptr, nullptr)); }

    /// A row whose values are ready to be bound, each with the place of its column.
    struct Bound {
        Entity entity;
        std::string evidence; // empty for NULL
        std::vector<std::pair<int, store::Raw>> values;
    };
    [[nodiscard]] static std::vector<Bound> bound(const Catalogue& catalogue, const std::vector<test::Row>& rows)
    {
        std::vector<Bound> all;
        for (const auto& row : rows) {
            auto& one = all.emplace_back(Bound { row.entity, {}, {} });
            for (const auto& [column, known] : row.values) {
                const auto& field = catalogue.columnField(row.entity, column);
                if (!known.has())
                    continue;
                one.values.emplace_back(field.ordinal + 3, store::toRaw(field, known.value));
                if (known.evidence != field.nature)
                    one.evidence
                        = "{\"" + column.toStdString() + "\":\"" + evidenceKey(known.evidence).toStdString() + "\"}";
            }
        }
        return all;
    }

    /// One step with these rows, the first of which owns the others.
    void log(const std::vector<Bound>& rows)
    {
        once(begin_, "BEGIN IMMEDIATE");
        prepare(step_, "INSERT INTO step(uuid, at, label, kind, target, window) VALUES (?, ?, ?, ?, ?, ?)");
        bindUuid(step_);
        sqlite3_bind_text(step_, 2, "2026-05-04T10:15:00.000Z", -1, SQLITE_STATIC);
        sqlite3_bind_text(step_, 3, "Log", -1, SQLITE_STATIC);
        sqlite3_bind_text(step_, 4, "edit", -1, SQLITE_STATIC);
        finish(step_);
        const auto step = sqlite3_last_insert_rowid(handle_);
        sqlite3_int64 print = 0;
        for (const auto& row : rows) {
            insert(row, print);
            if (print == 0)
                print = sqlite3_last_insert_rowid(handle_);
        }
        prepare(close_, "UPDATE step SET closed = 1 WHERE id = ?");
        sqlite3_bind_int64(close_, 1, step);
        finish(close_);
        once(commit_, "COMMIT");
    }

    /// Steps over everything that store::readTable asks for and puts each value into a plain variable. Gives a sum over
    /// them, so that nothing can be left out.
    [[nodiscard]] double readAll()
    {
        double sum = 0;
        for (const auto entity : allEntities()) {
            const auto owned = ownerOf(entity);
            std::string sql
                = "SELECT id, " + (owned ? owned->column.toStdString() : std::string("0")) + ", not_measured";
            for (const auto& field : catalogue_.columns(entity))
                sql += ", " + field.key.toStdString();
            sql += " FROM " + entityKey(entity).toStdString() + " WHERE removed = 0 ORDER BY id";
            sqlite3_stmt* statement = nullptr;
            prepare(statement, sql.c_str());
            const int columns = sqlite3_column_count(statement);
            while (sqlite3_step(statement) == SQLITE_ROW)
                for (int column = 0; column < columns; ++column)
                    switch (sqlite3_column_type(statement, column)) {
                    case SQLITE_INTEGER: {
                        const auto value = sqlite3_column_int64(statement, column);
                        sum += double(value);
                        break;
                    }
                    case SQLITE_FLOAT: {
                        const double value = sqlite3_column_double(statement, column);
                        sum += value;
                        break;
                    }
                    case SQLITE_TEXT: {
                        const auto* value = sqlite3_column_text(statement, column);
                        const int size = sqlite3_column_bytes(statement, column);
                        sum += value[0] + size;
                        break;
                    }
                    default:
                        break;
                    }
            sqlite3_finalize(statement);
        }
        return sum;
    }

private:
    void check(int code) const
    {
        if (code == SQLITE_OK || code == SQLITE_DONE || code == SQLITE_ROW)
            return;
        std::fprintf(stderr, "baseline: %s\n", sqlite3_errmsg(handle_));
        std::exit(1);
    }
    void prepare(sqlite3_stmt*& statement, const char* sql) const
    {
        if (!statement)
            check(sqlite3_prepare_v3(handle_, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, nullptr));
    }
    void finish(sqlite3_stmt* statement) const
    {
        check(sqlite3_step(statement));
        sqlite3_reset(statement);
        sqlite3_clear_bindings(statement);
    }
    void once(sqlite3_stmt*& statement, const char* sql) const
    {
        prepare(statement, sql);
        finish(statement);
    }
    /// As long as a UUID and as unique here, without the cost of a good one.
    void bindUuid(sqlite3_stmt* statement)
    {
        char uuid[40];
        ++uuids_;
        std::snprintf(uuid, sizeof uuid, "%08x-0000-4000-8000-%012x", uuids_ * 2654435761U, uuids_);
        sqlite3_bind_text(statement, 1, uuid, 36, SQLITE_TRANSIENT);
    }
    void insert(const Bound& row, sqlite3_int64 owner)
    {
        auto& statement = inserts_[size_t(row.entity)];
        const auto owned = ownerOf(row.entity);
        const auto& fields = catalogue_.columns(row.entity);
        if (!statement) {
            std::string names = "uuid, not_measured";
            std::string marks = "?, ?";
            for (const auto& field : fields) {
                names += ", " + field.key.toStdString();
                marks += ", ?";
            }
            if (owned) {
                names += ", " + owned->column.toStdString();
                marks += ", ?";
            }
            prepare(statement,
                ("INSERT INTO " + entityKey(row.entity).toStdString() + "(" + names + ") VALUES (" + marks + ")")
                    .c_str());
        }
        bindUuid(statement);
        if (!row.evidence.empty())
            sqlite3_bind_text(statement, 2, row.evidence.data(), int(row.evidence.size()), SQLITE_STATIC);
        if (owned)
            sqlite3_bind_int64(statement, int(fields.size()) + 3, owner);
        for (const auto& [at, value] : row.values) {
            if (const auto* number = std::get_if<double>(&value))
                sqlite3_bind_double(statement, at, *number);
            else if (const auto* integer = std::get_if<qint64>(&value))
                sqlite3_bind_int64(statement, at, *integer);
            else if (const auto* text = std::get_if<std::string>(&value))
                sqlite3_bind_text(statement, at, text->data(), int(text->size()), SQLITE_STATIC);
        }
        finish(statement);
    }

    const Catalogue& catalogue_;
    sqlite3* handle_ = nullptr;
    sqlite3_stmt *begin_ = nullptr, *step_ = nullptr, *close_ = nullptr, *commit_ = nullptr;
    std::array<sqlite3_stmt*, entityCount> inserts_ {};
    unsigned uuids_ = 0;
};

} // namespace washfast::bench
