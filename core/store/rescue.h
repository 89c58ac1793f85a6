// Saving what an open connection still sees of a notebook whose file it has lost, and telling afterwards whether
// another file has all of that.
#pragma once

#include "core/store/connection.h"

#include <QStringList>

namespace washfast::store {

struct Rescued {
    QString path; // beside the notebook, or in the person's home when nothing can be written there
    bool sound = false; // false: the bytes of the file and of its log as they are
};

/// Error NoSpace, ReadOnly or Failed: nothing was saved.
[[nodiscard]] Result<Rescued> rescue(Connection& connection, const QString& notebook);

/// How far the history of a notebook goes. It is only ever added to, so that who has the last of it has all.
struct HistoryEnd {
    qint64 step = 0, entry = 0; // 0: there is none
    QString first_step, last_step; // uuids
    QString last_at; // of the last entry
    QStringList settings; // they have no history
};
[[nodiscard]] Result<HistoryEnd> historyEnd(Connection& connection);
/// Whether `there` has all that ends so.
[[nodiscard]] bool hasAllOf(Connection& there, const HistoryEnd& end);
/// Whether it began as the same notebook.
[[nodiscard]] bool beganAlike(Connection& there, const HistoryEnd& end);

} // namespace washfast::store
