// The numbered steps by which a notebook's schema grew. Each is one SQL script; those that a file lacks are run
// together in one transaction, and the number of the last is kept in the file's user_version. The triggers that keep
// the history are made anew from the tables after that, so a new column is in the history without being named anywhere.
#pragma once

#include "core/store/connection.h"

#include <QByteArray>
#include <vector>

namespace washfast::store {

/// "WFnb" in the header of the file tells that it is a notebook.
inline constexpr qint32 applicationId = 0x57466e62;

struct Migration {
    int to = 0; // schema after it
    QByteArray sql;
};

/// Those that come with the program, in order.
[[nodiscard]] std::vector<Migration> shippedMigrations();

/// Brings an open file from its schema to the newest. Everything happens or nothing.
[[nodiscard]] Outcome migrate(Connection& connection, const std::vector<Migration>& migrations);

/// Drops and makes again the triggers that write the history and forbid deleting and replacing.
[[nodiscard]] Outcome makeHistoryTriggers(Connection& connection);

} // namespace washfast::store
