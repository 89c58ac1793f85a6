// Copies of a notebook beside it, in a folder NAME.copies: one a day, the newest fourteen kept, and one before each
// change of the schema and before another notebook is brought in (those are kept).
#pragma once

#include "core/quantity/result.h"

#include <QDate>

namespace washfast::store {

[[nodiscard]] QString copiesFolder(const QString& notebook);
/// Makes today's copy unless it is there; gives its path. Opens its own connection: may run in another thread.
[[nodiscard]] Result<QString> makeDailyCopy(const QString& notebook, const QDate& today, int keep = 14);
/// A copy named after the schema that the file has now.
[[nodiscard]] Result<QString> copyBeforeMigration(const QString& notebook, int schema);
/// A copy before another notebook is brought in. What a transaction has not committed yet is not in it.
[[nodiscard]] Result<QString> copyBeforeMerge(const QString& notebook);

} // namespace washfast::store
