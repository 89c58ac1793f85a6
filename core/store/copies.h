// Copies of a notebook beside it, in a folder NAME.copies: one a day, the newest fourteen kept, and one before each
// change of the schema and before another notebook is brought in (those are kept).
//
// A copy gets its name only when it has been looked through and is sound. Nothing is copied from a damaged notebook,
// and while the notebook or its newest copy is damaged no older copy goes.
#pragma once

#include "core/quantity/result.h"

#include <QDate>
#include <optional>
#include <stop_token>

namespace washfast::store {

[[nodiscard]] QString copiesFolder(const QString& notebook);
/// Makes today's copy unless it is there; gives its path. Opens its own connection: may run in another thread. Error
/// Damaged: the notebook is, and its copies stay as they are.
[[nodiscard]] Result<QString> makeDailyCopy(const QString& notebook, const QDate& today, int keep = 14);
/// A copy named after the schema that the file has now.
[[nodiscard]] Result<QString> copyBeforeMigration(const QString& notebook, int schema);
/// A copy before another notebook is brought in. What a transaction has not committed yet is not in it.
[[nodiscard]] Result<QString> copyBeforeMerge(const QString& notebook);

/// The newest copy that is sound: each is looked through, the newest first, until one is. May take seconds.
[[nodiscard]] std::optional<QString> newestSoundCopy(const QString& notebook, const std::stop_token& stop = {});
/// A sentence for the person whose notebook is damaged: which copy to take, or that there is none. Looks for it.
[[nodiscard]] QString wayOut(const QString& notebook, const std::stop_token& stop = {});
/// The same without looking: where copies are.
[[nodiscard]] QString whereCopiesAre(const QString& notebook);

} // namespace washfast::store
