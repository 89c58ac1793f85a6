// Walking through the rows that a statement gives. A statement that could not be prepared answers with its error.
#pragma once

#include "core/store/connection.h"

#include <QStringList>
#include <type_traits>
#include <vector>

namespace washfast::store {

/// Hands each row to `take`, which gives nothing, or an Outcome that ends the walk when it is an error.
template <typename Take> Outcome eachRow(Result<Statement> statement, const Take& take)
{
    if (!statement)
        return statement.error();
    for (;;) {
        const auto row = statement->step();
        if (!row)
            return row.error();
        if (!*row)
            return Done {};
        if constexpr (std::is_void_v<std::invoke_result_t<const Take&, const Statement&>>)
            take(*statement);
        else if (auto done = take(*statement); !done)
            return done;
    }
}

/// The first column of all rows.
[[nodiscard]] inline Result<QStringList> texts(Result<Statement> statement)
{
    QStringList all;
    auto done = eachRow(std::move(statement), [&](const Statement& row) { all << row.text(0); });
    if (!done)
        return done.error();
    return all;
}

[[nodiscard]] inline Result<std::vector<qint64>> integers(Result<Statement> statement)
{
    std::vector<qint64> all;
    auto done = eachRow(std::move(statement), [&](const Statement& row) { all.push_back(row.integer(0)); });
    if (!done)
        return done.error();
    return all;
}

} // namespace washfast::store
